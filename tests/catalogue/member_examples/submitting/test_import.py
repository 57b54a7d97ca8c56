"""An existing collection: every fault told, nothing half in, nothing twice."""

from io import StringIO

import pytest
from django.core.files.storage import default_storage
from django.core.management import CommandError, call_command

from catalogue.member_examples.models import Example, Photograph
from catalogue.member_examples.submitting.importing import bringing_in
from catalogue.member_examples.submitting.importing.sheets import SHEETS
from catalogue.reference.models import FeaturePlace, ReferenceState
from tests.catalogue.member_examples.submitting.forms_sent import picture
from tests.making import make_feature
from tests.test_documentation import GUIDE, in_the_guide

PIECES = "piece,owner,type,sold_as,seen_on,size_mark,condition,complete\n"
ROWS = "12a,Ada,SMK,Ling smock,2011~,3 R,good,yes\n13,Ben,,an old coat,,,,\n"


@pytest.fixture
def collection(tmp_path, society):
    files = {
        "pieces.csv": PIECES + ROWS,
        "labels.csv": 'piece,kind,place,text,origin\n12a,main,neck,"SMOCK\n27-114-06",original\n12a,size,neck,,trace\n',
        "observations.csv": "piece,feature,seen,note\n12a,closure,zip,\n12a,cuff,cannot-tell,torn\n",
        "lengths.csv": "piece,what,length\n12a,pit_to_pit,22 1/2 in\n12a,sleeve,61 cm\n",
    }
    for name, text in files.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    pictures = tmp_path / "photographs" / "12a"
    pictures.mkdir(parents=True)
    (pictures / "front.jpg").write_bytes(picture("olive"))
    (pictures / "Thumbs.db").write_bytes(b"left by a file manager")
    (pictures / "main_label-2.JPG").write_bytes(picture("navy"))
    (pictures / "IMG_0012.jpg").write_bytes(picture("teal"))
    return tmp_path


def run(folder, *options) -> tuple[str, str]:
    """What the command says, and what it complains about."""
    out, err = StringIO(), StringIO()
    try:
        call_command("import_examples", str(folder), *options, stdout=out, stderr=err)
    except CommandError as problem:
        err.write(str(problem))
    return out.getvalue(), err.getvalue()


def stored_files() -> list[str]:
    found = []
    for row in Photograph.with_taken_out.all():
        found += [size["name"] for size in row.files]
    return found


def test_a_collection_comes_in_as_drafts_of_its_owners(collection, society):
    out, err = run(collection)
    one, other = Example.objects.order_by("code")

    assert (out, err) == ("Imported as drafts: 2 pieces with 3 photographs.\n", "")
    assert (one.owner, one.state, one.garment_type, one.sold_as) == (society.ada, "draft", society.smock, "Ling smock")
    assert (one.seen_on, one.size_mark, one.condition, one.complete) == ("2011~", "3 R", "good", True)
    assert (other.owner, other.garment_type, other.complete) == (society.ben, None, None)
    assert list(one.labels.values_list("text", "origin")) == [("SMOCK\n27-114-06", "original"), ("", "trace")]
    assert list(one.measurements.values_list("mm", "by__username")) == [(572, "Ada"), (610, "Ada")]
    said = list(one.observations.order_by("pk").values_list("answer", "state__code", "note"))
    assert said == [("seen", "zip", ""), ("cannot_tell", None, "torn")]
    assert sorted(one.photographs.values_list("view", flat=True)) == ["front", "main_label", "other"]
    assert all(default_storage.exists(name) for name in stored_files())


def test_the_same_again_brings_in_nothing_and_leaves_what_was_changed(collection):
    run(collection)
    Example.objects.filter(sold_as="Ling smock").update(sold_as="changed by its owner")
    out, _ = run(collection)

    assert out == "Imported as drafts: 0 pieces with 0 photographs; 2 were there already and stay as they are.\n"
    assert Example.objects.filter(sold_as="changed by its owner").count() == 1
    assert Photograph.objects.count() == 3


def test_a_dry_run_looks_at_everything_and_keeps_nothing(collection, monkeypatch):
    def refuse(*args, **kwargs):
        raise AssertionError("a dry run writes no file")

    monkeypatch.setattr(default_storage, "save", refuse)
    out, err = run(collection, "--dry-run")

    assert (out, err) == ("Would come in: 2 pieces with 3 photographs.\n", "")
    assert not Example.objects.exists()


def test_every_fault_is_told_with_file_line_column_found_accepted_and_nearest(collection):
    (collection / "pieces.csv").write_text(
        PIECES + "12a,Adah,SMOK,x,2011-13,3,goood,maybe\n12a,Ben,,,,,,\n14,Ben,,,,,,\n15,Ben,SMK,,,,,\n",
        encoding="utf-8",
    )
    (collection / "observations.csv").write_text(
        "piece,feature,seen\n14,closur,zip\n14,closure,zipp\n99,cuff,tab\n", encoding="utf-8"
    )
    (collection / "lengths.csv").write_text("piece,what,length\n14,sleeve,61\n15,brim,6 cm\n", encoding="utf-8")
    (collection / "photographs" / "12a" / "front.jpg").write_bytes(b"")
    (collection / "photographs" / "77").mkdir()
    (collection / "photographs" / "14").mkdir()
    (collection / "photographs" / "14" / "front.jpg").write_bytes(b"<svg/>")
    out, err = run(collection, "--dry-run")

    for words in (
        "pieces.csv, line 2, column owner: found “Adah”. Accepted: the name of a member of this site. Nearest: Ada.",
        "pieces.csv, line 2, column type: found “SMOK”. Accepted: the code of a type on this site. Nearest: SMK.",
        "pieces.csv, line 2, column seen_on: found “2011-13”",
        "pieces.csv, line 2, column condition: found “goood”",
        "Nearest: good.",
        "pieces.csv, line 2, column complete: found “maybe”",
        "pieces.csv, line 3, column piece: found “12a”",
        "observations.csv, line 2, column feature: found “closur”",
        "observations.csv, line 3, column seen: found “zipp”",
        "Nearest: zip.",
        "observations.csv, line 4, column piece: found “99”",
        "lengths.csv, line 2, column length: found “61”",
        "lengths.csv, line 3, column what: found “brim”. Accepted: a length of SMK: pit_to_pit, ",
        "photographs/12a/front.jpg: found “a file that is not taken”.",
        "photographs/77: found “77”. Accepted: a folder named like a piece of pieces.csv.",
        "photographs/14/front.jpg: found “a file that is not taken”. Accepted: a photograph as JPEG, PNG, WebP or "
        "HEIC. The picture is an SVG drawing, whatever its name says.",
        "Nothing was imported:",
    ):
        assert words in err, f"{words}\n\n{err}"
    assert out == ""
    assert not Example.objects.exists()


def test_a_file_may_leave_out_columns_by_which_its_rows_are_told_apart(collection):
    (collection / "labels.csv").write_text("piece,kind,remark\n12a,main,faded\n12a,main,faded\n", encoding="utf-8")
    assert "labels.csv, line 3, column text: found “12a main" in run(collection, "--dry-run")[1]

    (collection / "labels.csv").write_text("piece,kind,remark\n12a,main,faded\n", encoding="utf-8")
    run(collection)
    assert [(label.place, label.text, label.remark) for label in Example.objects.first().labels.all()] == [
        ("", "", "faded")
    ]


def asked_for_its_shade(society) -> None:
    colour = make_feature("colour", ("moss", "drab"), types=[society.smock])
    colour.seen = "daylight"
    colour.save()
    FeaturePlace.objects.create(feature=colour, view="any", region="cloth")
    ReferenceState.mark_changed()


def test_shades_in_two_places_come_in_too_as_seen_and_as_measured(collection, society):
    asked_for_its_shade(society)
    shades = "piece,exposed,protected,exposed_lab,protected_lab\n12a,drab,deeper,43.9 -5.8 13.7,40 -6 14\n"
    (collection / "shades.csv").write_text(shades, encoding="utf-8")

    assert run(collection)[1] == ""
    pair = Example.objects.get(sold_as="Ling smock").shade_pair
    assert (pair.exposed.code, pair.protected) == ("drab", "deeper")
    assert pair.labs == ((43.9, -5.8, 13.7), (40.0, -6.0, 14.0))


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("12a,drabb,deeper,,", "column exposed: found “drabb”. Accepted: moss, drab. Nearest: drab."),
        ("12a,,darker,,", "column protected: found “darker”"),
        ("12a,drab,,43.9 -5.8,", "column exposed_lab: found “43.9 -5.8”. Accepted: L, a and b"),
        ("12a,drab,,,40 -6 14", "column exposed_lab: found “no figures”. Accepted: the figures of both places"),
        ("12a,drab,,40 -6 14,", "column protected_lab: found “no figures”"),
        ("12a,,,,", "found “a row that says nothing”"),
        ("13,drab,,,", "column piece: found “13”. Accepted: a piece of a garment type that is asked for its shade."),
        ("99,drab,,,", "column piece: found “99”. Accepted: a piece of pieces.csv."),
    ],
)
def test_a_faulty_row_of_shades_is_told_and_nothing_comes_in(collection, society, row, told):
    asked_for_its_shade(society)
    shades = f"piece,exposed,protected,exposed_lab,protected_lab\n{row}\n"
    (collection / "shades.csv").write_text(shades, encoding="utf-8")
    err = run(collection, "--dry-run")[1]

    assert f"shades.csv, line 2, {told}" in err or f"shades.csv, line 2, column exposed: {told}" in err, err
    assert not Example.objects.exists()


def test_when_the_writing_fails_half_way_neither_rows_nor_files_stay(collection, monkeypatch):
    kept: list[str] = []
    real = bringing_in.keep

    def noting(sizes):
        key = real(sizes)
        kept.append(key)
        return key

    def break_off(*args):
        raise RuntimeError("the machine goes down")

    monkeypatch.setattr(bringing_in, "keep", noting)
    monkeypatch.setattr(bringing_in, "write_pictures", break_off)
    with pytest.raises(RuntimeError):
        bringing_in.import_examples(folder=collection, tell=lambda line: None)

    assert kept
    assert not Example.objects.exists()
    from catalogue.member_examples.photographs.keeping import file_name

    assert not any(default_storage.exists(file_name(key, longer)) for key in kept for longer in (320, 800, 1600))


@pytest.mark.parametrize("piece", ["../12a", "..", "a/b", "a\\b", ".hidden", "x" * 81])
def test_a_number_that_would_lead_out_of_the_folder_is_refused(collection, piece):
    (collection / "pieces.csv").write_text(PIECES + f"{piece},Ada,,,,,,\n", encoding="utf-8")

    assert "pieces.csv, line 2, column piece" in run(collection)[1]


def test_a_folder_that_is_not_there_or_has_no_list_is_said_so(tmp_path, db):
    assert "no such folder" in run(tmp_path / "nowhere")[1]
    (tmp_path / "peices.csv").write_text("x\n", encoding="utf-8")
    err = run(tmp_path)[1]
    assert "Nearest: pieces.csv" in err
    assert "the list of pieces" in err


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_every_sheet_stands_in_the_guide_with_its_columns(sheet):
    section = GUIDE.split("## An existing collection")[1].split("\n## ")[0]

    assert in_the_guide(sheet) in section
