"""A small sound folder, and every kind of fault that can be planted in it with the one line that tells it."""

SOUND = {
    "issuers": "issuer,name,date\nFEL,Fell Service,1950/1980\n",
    "makers": "maker,name,first_year,last_year\nORR,Orrin Works,1950,1970\nPEA,Peat Mill,,\n",
    "sources": "source,kind,title,grade\nS1,order,An order,A\nS2,label,A label,B\n",
    "types": "type,name,garment_class,issuer,features\nCOA,Coat,coat,FEL,front hood rim\nBAG,Bag,bag,FEL,front\n",
    "features": (
        "feature,name,question,kind,seen,service_change,absent,parent,shown_when,places\n"
        "front,Front,How does it close?,choice,outside,no,,,,\n"
        "hood,Hood,Is there a hood?,choice,outside,no,none,,,\n"
        "rim,Rim,How wide is the rim?,measurement,measured,no,,hood,fixed,COA=front:hem\n"
    ),
    "states": (
        "feature,state,label,low,high\nfront,zip,Zip,,\nfront,studs,Studs,,\nhood,none,None,,\nhood,fixed,Fixed,,\n"
        "rim,r1,Narrow,0,5\nrim,r2,Wide,5,\n"
    ),
    "versions": (
        "version,type,name,other_names,sellers_names,kind,date,continues,makers,rarity,certainty,piece_seen,sources,"
        "contradicting_sources\n"
        "C1,COA,First coat,old coat,,issue,1950/1960,,ORR,3,documented,yes,S1,S2\n"
        "C2,COA,Second coat,,sea coat (never issued),issue,1960/1970,C1,ORR PEA,3,documented,yes,S1,\n"
        "B1,BAG,Bag,,,issue,1955,,,3,observed,yes,,\n"
    ),
    "profiles": (
        "version,feature,state,how_often,share,first_year,last_year\nC1,front,studs,always,,,\nC2,front,zip,always,,,\n"
        "C2,hood,fixed,usually,0.5,1961,1965\nB1,front,zip,always,,,\n"
    ),
    "number_forms": "form,name,pattern\nstores,Stores number,(99)-(99)\n",
    "stock_numbers": "number,version,form,first_year,last_year\n27-01,C1,stores,1950,1960\n",
    "sizes": "version,mark,length,mm,source\nC1,160/88,sleeve,590,S1\nC1,170/96,sleeve,610,S1\nC1,170/96,hem,600,S2\n",
    "companions": "version,other,goes_with,joined_by\nB1,C1,worn_with,\nC2,B1,fits,front\n",
    "open_questions": "question,text,versions,settled\nD1,Was there a third coat?,C1 C2,yes\n",
    "question_views": "question,letter,holder,text,stands\nD1,A,Ada,Yes,yes\nD1,B,Bea,No,no\n",
}
YEAR = "a year of four figures, or empty"


# What is planted, and the one line that tells it.
PLANTED = {
    # ---- the file as such
    "an empty file": (
        ("makers", None, ""),
        "makers.csv, line 1: found “an empty file”. Accepted: a header line with the names of the columns.",
    ),
    "another encoding": (
        ("makers", None, "maker,name\nORR,Orrin\nPEA,Größe\n".encode("latin-1")),
        "makers.csv, line 3: found “letters that are not written in UTF-8”. "
        "Accepted: UTF-8: in the spreadsheet program choose “CSV UTF-8” when saving.",
    ),
    "a NUL character": (
        ("makers", "Peat Mill", "Peat\0Mill"),
        "makers.csv, line 3: found “a NUL character”. "
        "Accepted: plain text: save the sheet as CSV again, in UTF-8.",
    ),
    "a quotation mark that is not closed": (
        ("makers", "Peat Mill", '"Peat Mill'),
        "makers.csv, line 3: found “a quotation mark that is not closed”. "
        "Accepted: a closing mark; one inside a cell is written twice.",
    ),
    # ---- the header
    "a column twice": (
        ("makers", "first_year,last_year", "first_year,first_year"),
        "makers.csv, line 1, column first_year: found “the column twice”. Accepted: each column once.",
    ),
    "a column misspelt": (
        ("sources", "grade", "gade"),
        "sources.csv, line 1, column gade: found “gade”. Accepted: the columns source, kind, title, date, holder, "
        "shelf_mark, grade, personal_data, note. Nearest: grade.",
    ),
    "a column missing": (
        ("number_forms", None, "form,name\nstores,Stores number\n"),
        "number_forms.csv, line 1, column pattern: found “no such column”. "
        "Accepted: 9 a figure, 9{a-b} a to b figures, A a capital, ( ) groups, \\ the next sign itself.",
    ),
    # ---- a line
    "too few cells": (
        ("issuers", "FEL,Fell Service,1950/1980", "FEL,Fell Service"),
        "issuers.csv, line 2: found “2 cells”. Accepted: 3 cells, as the header has.",
    ),
    "a code twice": (
        ("issuers", "1950/1980\n", "1950/1980\nfel,Another,1951\n"),
        "issuers.csv, line 3, column issuer: found “fel”. "
        "Accepted: what does not stand in line 2 already, capitals or not.",
    ),
    "the header line again": (
        ("states", "hood,none", "feature,state,label,low,high\nhood,none"),
        "states.csv, line 4: found “the header line again”. Accepted: one header line; the lines of two sheets follow "
        "one another without the second’s.",
    ),
    # ---- a cell
    "something missing": (
        ("sources", "An order", ""),
        "sources.csv, line 2, column title: found “”. Accepted: text, at most 300 characters.",
    ),
    "a text too long": (
        ("sources", "An order", "x" * 301),
        f"sources.csv, line 2, column title: found “{'x' * 59}…”. Accepted: at most 300 characters.",
    ),
    "a code with a space": (
        ("number_forms", "(99)-(99)\n", "(99)-(99)\nthe stores,Stores number,99\n"),
        "number_forms.csv, line 3, column form: found “the stores”. "
        "Accepted: a usable code: a code has no spaces and none of , ; | :.",
    ),
    "a word outside its list": (
        ("versions", "issue,1950/1960", "isue,1950/1960"),
        "versions.csv, line 2, column kind: found “isue”. Accepted: one of issue, trial, transitional, "
        "depot_modification, conversion, commercial_copy, reproduction, unplaced. Nearest: issue.",
    ),
    "a restriction outside its list": (
        ("versions", None, SOUND["versions"].replace("contradicting_sources", "restrictions")),
        "versions.csv, line 2, column restrictions: found “S2”. "
        "Accepted: any of wearing, emblem, export, spaces between.",
    ),
    "a number out of range": (
        ("profiles", "0.5", "1.5"),
        "profiles.csv, line 4, column share: found “1.5”. Accepted: over 0 to 1, or empty.",
    ),
    "a whole number out of range": (
        ("versions", "ORR,3,documented", "ORR,9,documented"),
        "versions.csv, line 2, column rarity: found “9”. Accepted: 1 common to 5 rare.",
    ),
    "a year in words": (
        ("makers", "1950,1970", "fifty,1970"),
        f"makers.csv, line 2, column first_year: found “fifty”. Accepted: {YEAR}.",
    ),
    "neither yes nor no": (
        ("versions", "observed,yes", "observed,maybe"),
        "versions.csv, line 4, column piece_seen: found “maybe”. Accepted: yes or no.",
    ),
    "yes in capitals": (
        ("versions", "observed,yes", "observed,Yes"),
        "versions.csv, line 4, column piece_seen: found “Yes”. Accepted: yes or no. Nearest: yes.",
    ),
    "a version that is taken for its own type": (
        (
            "versions",
            None,
            SOUND["versions"].replace("contradicting_sources", "passes_for").replace(",S1,S2", ",S1,BAG COA"),
        ),
        "versions.csv, line 2, column passes_for: found “COA”. Accepted: another type than its own.",
    ),
    "a state of a maker that did not make the version": (
        (
            "profiles",
            None,
            "version,feature,state,how_often,makers\nC1,front,studs,always,ORR PEA\nC2,front,zip,always,PEA\n"
            "B1,front,zip,always,PEA\n",
        ),
        "profiles.csv, line 2, column makers: found “PEA”. "
        "Accepted: a maker that versions.csv lists for C1: ORR.",
    ),
    "a month that is none": (
        ("versions", "1950/1960", "1950-13"),
        "versions.csv, line 2, column date: found “1950-13”. Accepted: a month and a day that there are.",
    ),
    "a date that runs backward": (
        ("versions", "issue,1950/1960", "issue,1960/1950"),
        "versions.csv, line 2, column date: found “1960/1950”. Accepted: a date that does not end before it begins.",
    ),
    "a place that cannot be read": (
        ("features", "COA=front:hem", "hem"),
        "features.csv, line 4, column places: found “hem”. "
        "Accepted: view:region+region, then ;TYPE=view:region where a type differs.",
    ),
    # ---- codes
    "a code that does not exist": (
        ("types", "Coat,coat,FEL", "Coat,coat,FELL"),
        "types.csv, line 2, column issuer: found “FELL”. Accepted: a code of issuers.csv. Nearest: FEL.",
    ),
    "one of several codes that does not exist": (
        ("versions", "ORR PEA", "ORR PEE"),
        "versions.csv, line 3, column makers: found “PEE”. "
        "Accepted: codes of makers.csv, spaces between. Nearest: PEA.",
    ),
    # ---- garments
    "an outline that cannot be drawn": (
        ("types", "Coat,coat,", "Coat,coatt,"),
        "types.csv, line 2, column garment_class: found “coatt”. Accepted: empty or one of {outlines}. Nearest: coat.",
    ),
    "a lost part that leaves another feature's state": (
        ("features", "no,none,,,", "no,non,,,"),
        "features.csv, line 3, column absent: found “non”. "
        "Accepted: empty or a state of hood: fixed, none. Nearest: none.",
    ),
    "a choice without answers": (
        ("features", "front,Front,", "cuff,Cuff,How does it end?,choice,outside,no,,,,\nfront,Front,"),
        "features.csv, line 2, column feature: found “cuff”. "
        "Accepted: a feature with a line for each of its answers in states.csv.",
    ),
    "states of a parent that is not named": (
        ("features", "hood,fixed,COA", ",fixed,COA"),
        "features.csv, line 4, column shown_when: found “fixed”. Accepted: empty, where there is no parent.",
    ),
    "a parent without the states that show its detail": (
        ("features", "hood,fixed,COA", "hood,,COA"),
        "features.csv, line 4, column shown_when: found “”. Accepted: states of hood, | between: fixed, none.",
    ),
    "a state that the parent lacks": (
        ("features", "hood,fixed,COA", "hood,fixd,COA"),
        "features.csv, line 4, column shown_when: found “fixd”. "
        "Accepted: states of hood, | between: fixed, none. Nearest: fixed.",
    ),
    "a place of a type that does not exist": (
        ("features", "COA=front:hem", "COAT=front:hem"),
        "features.csv, line 4, column places: found “COAT”. Accepted: a type of types.csv before =. Nearest: COA.",
    ),
    "a place that the garment lacks": (
        ("features", "COA=front:hem", "COA=front:hemm"),
        "features.csv, line 4, column places: found “front:hemm”. "
        "Accepted: a region of the front view of a coat. Nearest: hem.",
    ),
    "a word of labels of no known form": (
        ("states", "label,low,high\nfront,zip,Zip,,\nfront,studs,Studs,,\nhood,none,None,,\nhood,fixed,Fixed,,\n"
         "rim,r1,Narrow,0,5\nrim,r2,Wide,5,\n",
         "label,low,high,label_says\nfront,zip,Zip,,,sizes:4\nfront,studs,Studs,,,\nhood,none,None,,,\n"
         "hood,fixed,Fixed,,,\nrim,r1,Narrow,0,5,\nrim,r2,Wide,5,,\n"),
        "states.csv, line 2, column label_says: found “sizes:4”. Accepted: size:CODE, fibres:cotton 60-70, polyester, "
        "or country:NAME; | between; but “sizes:4” is none of these.",
    ),  # fmt: skip
    "a gap between bands": (
        ("states", "r2,Wide,5,", "r2,Wide,6,"),
        "states.csv, line 7, column low: found “6–”. "
        "Accepted: bands that run upward without a gap, each beginning where the one before ends.",
    ),
    "a band that runs backward": (
        ("states", "r1,Narrow,0,5", "r1,Narrow,9,5"),
        "states.csv, line 6, column low: found “9–5”. "
        "Accepted: bands that run upward without a gap, each beginning where the one before ends.",
    ),
    "a band beside a state without": (
        ("states", "r1,Narrow,0,5", "r1,Narrow,,"),
        "states.csv, line 6, column low: found “–”. "
        "Accepted: bands that run upward without a gap, each beginning where the one before ends.",
    ),
    "a circle of parents": (
        ("features", "no,none,,,", "no,none,rim,r1,"),
        "features.csv, line 3, column parent: found “hood → rim → hood”. Accepted: a line without a circle.",
    ),
    "a feature that is its own parent": (
        ("features", "hood,fixed,COA", "rim,r1,COA"),
        "features.csv, line 4, column parent: found “rim → rim”. Accepted: a line without a circle.",
    ),
    "a feature that is its own parent, its states as before": (
        ("features", "hood,fixed,COA", "rim,fixed,COA"),
        "features.csv, line 4, column parent: found “rim → rim”. Accepted: a line without a circle.",
    ),
    # ---- versions
    "a version made from itself": (
        ("versions", None, SOUND["versions"].replace("continues", "made_from").replace(",C1,ORR PEA", ",C2,ORR PEA")),
        "versions.csv, line 3, column made_from: found “C2 → C2”. Accepted: a line without a circle.",
    ),
    "a column written over the next": (
        ("sources", "kind,title", "kind,kind"),
        "sources.csv, line 1, column kind: found “the column twice”. Accepted: each column once; there is no column "
        "title.",
    ),
    "cells under no heading": (
        ("makers", "last_year\nORR,Orrin Works,1950,1970\n", "last_year,,\nORR,Orrin Works,1950,1970,,x\n"),
        "makers.csv, line 1: found “x in line 2, under no heading”. Accepted: a heading over each column that holds "
        "something.",
    ),
    "a name used twice": (
        ("versions", "old coat,,issue", "old coat,old coat,issue"),
        "versions.csv, line 2, column sellers_names: found “old coat”. "
        "Accepted: each name once, either members' or sellers'.",
    ),
    "a bracket without a name": (
        ("versions", "sea coat (never issued)", "(never issued)"),
        "versions.csv, line 3, column sellers_names: found “(never issued)”. Accepted: a name before the bracket.",
    ),
    "a source that supports and contradicts": (
        ("versions", "S1,S2", "S1,S1"),
        "versions.csv, line 2, column contradicting_sources: found “S1”. "
        "Accepted: a source that does not support it as well.",
    ),
    "a circle of versions": (
        ("versions", "1950/1960,,ORR", "1950/1960,C2,ORR"),
        "versions.csv, line 2, column continues: found “C1 → C2 → C1”. Accepted: a line without a circle.",
    ),
    "a state that the feature lacks": (
        ("profiles", "C1,front,studs", "C1,front,stud"),
        "profiles.csv, line 2, column state: found “stud”. Accepted: a state of front: studs, zip. Nearest: studs.",
    ),
    "a feature that the garment type lacks": (
        ("profiles", "B1,front,zip", "B1,hood,none"),
        "profiles.csv, line 5, column feature: found “hood”. Accepted: a feature that types.csv lists for BAG.",
    ),
    "a maker that ends before it begins": (
        ("makers", "1950,1970", "1970,1950"),
        "makers.csv, line 2, column last_year: found “1950”. Accepted: a year from 1970, the first.",
    ),
    "a cell whose years run backward": (
        ("profiles", "1961,1965", "1965,1961"),
        "profiles.csv, line 4, column last_year: found “1961”. Accepted: a year from 1965, the first.",
    ),
    "a number whose years run backward": (
        ("stock_numbers", "1950,1960", "1960,1950"),
        "stock_numbers.csv, line 2, column last_year: found “1950”. Accepted: a year from 1960, the first.",
    ),
    "a form whose brackets stay open": (
        ("number_forms", "(99)-(99)", "(99)-(99"),
        "number_forms.csv, line 2, column pattern: found “(99)-(99”. "
        "Accepted: a pattern that can be read (a bracket is not closed).",
    ),
    "a group for the year that the pattern lacks": (
        ("number_forms", None, "form,name,pattern,year_group\nstores,Stores number,(99)-(99),3\n"),
        "number_forms.csv, line 2, column year_group: found “3”. Accepted: a group of the pattern: 1 to 2.",
    ),
    "a group for the year of one figure": (
        ("number_forms", None, "form,name,pattern,year_group\nstores,Stores number,(9)9-(99),1\n"),
        "number_forms.csv, line 2, column year_group: found “1”. "
        "Accepted: a group of two or four figures; group 1 is none.",
    ),
    "a check rule that says nothing": (
        ("number_forms", None, "form,name,pattern,check_rule\nstores,Stores number,(99)-(99),looks right\n"),
        "number_forms.csv, line 2, column check_rule: found “looks right”. Accepted: a rule that can be worked out "
        "(“looks right” cannot be worked out. Write such as “group 1 lies between 1 and 40 and group 2 is not 0”, or "
        "“group 3 = (sum of all figures of groups 1 to 2) mod 10”).",
    ),
    "a check rule over a group that there is none": (
        ("number_forms", None, "form,name,pattern,check_rule\nstores,Stores number,(99)-(99),group 3 is not 0\n"),
        "number_forms.csv, line 2, column check_rule: found “group 3 is not 0”. "
        "Accepted: a rule that can be worked out (there is no group 3: the pattern has 2).",
    ),
    "an example that breaks its own rule": (
        ("number_forms", None, "form,name,pattern,check_rule,example\nstores,X,(99)-(99),group 1 is not 0,00-12\n"),
        "number_forms.csv, line 2, column example: found “00-12”. "
        "Accepted: a number that keeps the check rule “group 1 is not 0”.",
    ),
    "an example of another form": (
        ("number_forms", None, "form,name,pattern,example\nstores,Stores number,(99)-(99),27/1\n"),
        "number_forms.csv, line 2, column example: found “27/1”. Accepted: a number that fits (99)-(99).",
    ),
    "a number that its form does not write": (
        ("stock_numbers", "27-01,C1", "27-1,C1"),
        "stock_numbers.csv, line 2, column number: found “27-1”. "
        "Accepted: a number written as (99)-(99); or another form, or none.",
    ),
    "a misprint of itself": (
        ("stock_numbers", None, "number,version,form,misprint_of\n27-01,C1,stores,27 01\n"),
        "stock_numbers.csv, line 2, column misprint_of: found “27 01”. "
        "Accepted: the right number, or nothing where this is no misprint.",
    ),
    "a size mark written in two ways": (
        ("sizes", "170/96,hem", "170 / 96,hem"),
        "sizes.csv, line 4, column mark: found “170 / 96”. Accepted: the mark as it is written elsewhere. "
        "Nearest: 170/96.",
    ),
    "a length of nothing": (
        ("sizes", "590", "0"),
        "sizes.csv, line 2, column mm: found “0”. Accepted: whole millimetres, 1 to 3000.",
    ),
    "a length without its paper": (
        ("sizes", "590,S1", "590,"),
        "sizes.csv, line 2, column source: found “”. Accepted: a code of sources.csv.",
    ),
    "a version that goes with itself": (
        ("companions", "B1,C1,worn_with", "C1,C1,worn_with"),
        "companions.csv, line 2, column other: found “C1”. Accepted: another version than in the same row.",
    ),
    "a pair said twice, the other way round": (
        ("companions", "C2,B1,fits,front", "C1,B1,worn_with,"),
        "companions.csv, line 3, column other: found “B1”. Accepted: a pair that is said once; B1 with C1 stands "
        "already.",
    ),
    "what is worn together and joined": (
        ("companions", "B1,C1,worn_with,", "B1,C1,worn_with,front"),
        "companions.csv, line 2, column joined_by: found “front”. Accepted: nothing, unless the two fit each other.",
    ),
    "two views that stand": (
        ("question_views", "Bea,No,no", "Bea,No,yes"),
        "question_views.csv, line 3, column stands: found “yes”. Accepted: no, where view A stands already.",
    ),
}  # fmt: skip
