"""What was read on a label, as the form for a member's piece takes it."""

from catalogue.member_examples.submitting.from_label import NO_NAME, PREFIX
from catalogue.member_examples.submitting.names import places_of_names, without_names
from catalogue.member_examples.words import Attachment
from identification.labels_on_pages.evidence import Evidence
from identification.labels_on_pages.sewn import BY_CODE

FIXED = {"on_cloth": Attachment.INK, "glued": Attachment.GLUED}


def carried_on(answer: dict, text: str, evidence: Evidence, type_code: str) -> dict:
    """Names and values of the form's hidden fields. Names of persons are masked in `text`; the text with them goes
    along as `named_text`, for whoever wants them kept. Nothing that waits to be confirmed is filled in."""
    years, makers = evidence.seen.years, evidence.seen.makers
    masked = without_names(text)
    fields = {
        "text": masked,
        "named_text": text if masked != text else "",
        "label_year": years[0] if years and years[0] == years[1] else "",
        "maker": makers[0] if len(makers) == 1 else "",
        "contract": evidence.contract_number,
        "size_mark": answer["size"]["as_printed"] if answer["size"]["status"] == "read" else "",
        **how_fixed(evidence.seen.sewn),
    }
    hidden = {PREFIX + name: value for name, value in fields.items() if value}
    places = places_of_names(text)
    perhaps = dict.fromkeys(one.printed for one in places if one.perhaps)
    return {
        "hidden": {"garment_type": type_code, **hidden},
        "names": list(dict.fromkeys(one.printed for one in places if not one.perhaps)),
        "perhaps": [(f"{NO_NAME}{number}", printed) for number, printed in enumerate(perhaps, 1)],
    }


def how_fixed(sewn: str) -> dict[str, str]:
    """How the label is fixed, and in words what was seen of it, where somebody looked."""
    if sewn not in BY_CODE:
        return {"attachment": Attachment.NOT_KNOWN}
    said = BY_CODE[sewn].said
    remark = "" if sewn in FIXED else f"{said[:1].upper()}{said[1:]}"
    return {"attachment": FIXED.get(sewn, Attachment.SEWN), "remark": remark}
