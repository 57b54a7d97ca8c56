"""Display names: what a person is called on the site. Pure: no Django, nothing of ours."""

import re
import unicodedata

LONGEST = 40
SHORTEST = 2
FORMER = "former member"
# Signs besides letters and digits that names have; everything else is refused, marks of direction among it.
OTHER_SIGNS = frozenset(" -'’._")
# Scripts whose letters look like each other's: a name is written in one of them (after Unicode TS 39, section 5).
ALIKE_SCRIPTS = frozenset({"LATIN", "CYRILLIC", "GREEK", "ARMENIAN", "CHEROKEE"})
# A name that would pass for an office of the society; compared without signs and capitals.
OFFICES = frozenset(
    {"admin", "administrator", "moderator", "secretary", "thesecretary", "author", "visitor", "member", "thesociety"}
)


def tidy(name: str) -> str:
    """The name as it is kept: compatibility forms made plain (NFKC), one space between words, none around."""
    return " ".join(unicodedata.normalize("NFKC", name).split())


def look_alike_key(name: str) -> str:
    """Two names with the same key look alike: capitals, accents' encoding and signs between letters do not count.

    Case is folded and compatibility forms are made plain, twice, because folding can bring new ones (Unicode
    Standard, section 3.13, definition D146: NFKC_Casefold).
    """
    folded = unicodedata.normalize("NFKC", name).casefold()
    folded = unicodedata.normalize("NFKC", folded).casefold()
    return "".join(sign for sign in folded if unicodedata.category(sign)[0] in "LMN")


def without_name(text: str, name: str) -> str:
    """The text with “a former member” wherever the name stands as a word of its own, capitals or not."""
    return re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", f"a {FORMER}", text, flags=re.IGNORECASE)


def reason_not_to_take(name: str) -> str | None:
    """Why a person may not be called so, in words; None when the tidied name will do."""
    name = tidy(name)
    if len(name) > LONGEST:
        return f"A display name has at most {LONGEST} signs; this one has {len(name)}."
    if strange := sorted({sign for sign in name if not is_allowed(sign)}):
        return f"A display name has letters, figures, spaces and - ' . _ only, not {words_for(strange[0])}."
    if len(look_alike_key(name)) < SHORTEST or not name[0].isalnum():
        return "A display name begins with a letter or a figure and has at least two of them."
    scripts = sorted({script.title() for sign in name if (script := script_of(sign)) in ALIKE_SCRIPTS})
    if len(scripts) > 1:
        return f"A display name keeps to one alphabet; this one mixes {' and '.join(scripts)} letters."
    key = look_alike_key(name)
    if key in OFFICES or re.match(look_alike_key(FORMER), key):
        return "That name would be taken for an office of the society, or for somebody who has left. Choose another."
    return None


def is_allowed(sign: str) -> bool:
    return sign in OTHER_SIGNS or unicodedata.category(sign)[0] in "LMN"


def script_of(sign: str) -> str:
    """The alphabet of a letter, by the first word of its Unicode name; nothing for other signs."""
    return unicodedata.name(sign, "").partition(" ")[0] if unicodedata.category(sign).startswith("L") else ""


def words_for(sign: str) -> str:
    """A sign in words that can be read even where it cannot be seen."""
    name = unicodedata.name(sign, "").lower() or "a sign without a name"
    return f"“{sign}”" if sign.isprintable() and not unicodedata.combining(sign) else f"an invisible one ({name})"
