"""What a member fills in about a scan of a source."""

from django import forms

from catalogue.member_examples.submitting.pictures import LICENCES
from catalogue.reference.models import Source
from catalogue.reference.words import NamesOnScan
from catalogue.review.fields import revision_field
from catalogue.review.proposals.forms import SourceCodes
from catalogue.review.scans.standing import FIELD_WORDS
from catalogue.review.scans.standing import LONGEST as LONGEST_BY_NAME
from catalogue.review.words import LONGEST
from catalogue.typed_words import WordsField


class FileForm(forms.Form):
    file = forms.FileField(
        label="Scan or photograph",
        help_text="JPEG, PNG, WebP or HEIC, one page. Place, camera and all else that the file tells beside the "
        "picture go.",
        error_messages={"required": "Choose a file.", "empty": "The file is empty. Choose another.",
                        "missing": "Choose a file."},
    )  # fmt: skip


class ScanForm(forms.Form):
    """What it shows, whose it is, and whether it shows names; a draft may wait for all of it."""

    shows = WordsField(
        label=FIELD_WORDS["shows"],
        required=False,
        max_length=LONGEST_BY_NAME["shows"],
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="As “page 3, with the measures of the cuff”: for who cannot see it. Name no private person.",
    )
    credit = WordsField(
        label=FIELD_WORDS["credit"],
        required=False,
        max_length=LONGEST_BY_NAME["credit"],
        help_text="Who made it, and who keeps what it shows, as they want to be named.",
    )
    licence = forms.ChoiceField(
        choices=[("", "All rights theirs; shown on this site only"), *LICENCES[1:]],
        required=False,
        label=FIELD_WORDS["licence"],
        help_text="Only what you may pass on: an old paper's rights can be another's.",
    )
    names = forms.ChoiceField(
        choices=NamesOnScan.choices, required=False, label=FIELD_WORDS["names"], widget=forms.RadioSelect
    )
    grounds = WordsField(
        label="Grounds: what it adds",
        required=False,
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="Which claim can be read on it. A draft may wait for them.",
    )
    cites = SourceCodes(label="Other sources cited for it", help_text="Codes of sources, spaces between.")
    revision = revision_field()

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["cites"].known = dict(Source.objects.values_list("code", "pk"))

    def rows(self) -> dict[str, object]:
        return {name: self.cleaned_data[name].replace("\r\n", "\n").strip() for name in FIELD_WORDS}
