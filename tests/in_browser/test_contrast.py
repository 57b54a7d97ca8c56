"""Every letter can be read: its contrast is at least 7 to 1, in light and in dark.

WCAG 2.2, success criteria 1.4.3 and 1.4.6; relative luminance and contrast as its glossary defines them. Unlike axe
this also sees letters in drawings and words in empty fields. test_whole_pages asks it of every page.
"""

import pytest

pytestmark = pytest.mark.browser
# The standard's greater demand, for all text, so that it is met in the sun as well.
LEAST = 7.0
# Each piece of text with its contrast; letters of a drawing stand on what was drawn just before them, on the page's
# paper or on a sheet, and the worst of these counts.
TOO_PALE = """(least) => {
    const parts = text => (text.match(/[\\d.]+/g) || []).map(Number)
    const light = value => { const v = value / 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4 }
    const luminance = ([r, g, b]) => 0.2126 * light(r) + 0.7152 * light(g) + 0.0722 * light(b)
    const contrast = (a, b) => { const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p)
                                 return (x + 0.05) / (y + 0.05) }
    const solid = colour => { const p = parts(colour)
                              return p.length >= 3 && (p.length < 4 || p[3] > 0.99) ? p : null }
    const behind = element => { for (let e = element; e; e = e.parentElement) {
        const found = solid(getComputedStyle(e).backgroundColor); if (found) return found } return [255, 255, 255] }
    const probe = document.body.appendChild(document.createElement("i"))
    const named = name => { probe.style.setProperty("color", `var(${name})`)
                            return parts(getComputedStyle(probe).color) }
    const paper = [named("--paper"), named("--sheet")]
    const pale = []
    const judge = (element, ink, grounds) => { const ratio = Math.min(...grounds.map(g => contrast(ink, g)))
        if (ratio < least) pale.push([ratio.toFixed(2), element.tagName, (element.textContent || element.placeholder)
            .trim().slice(0, 40)]) }
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    while (walker.nextNode()) {
        const element = walker.currentNode.parentElement
        if (["SCRIPT", "STYLE", "title", "desc", "OPTION"].includes(element.tagName)) continue
        if (!walker.currentNode.data.trim()) continue
        if (!element.checkVisibility() || !element.getClientRects().length) continue
        const style = getComputedStyle(element), drawing = element.closest("svg")
        if (drawing) {
            const before = element.closest("text").previousElementSibling
            const filled = before && before.tagName === "circle" ? solid(getComputedStyle(before).fill) : null
            judge(element, parts(style.fill), filled ? [filled] : paper)
        } else judge(element, parts(style.color), [behind(element)])
    }
    for (const field of document.querySelectorAll("input[placeholder]"))
        judge(field, parts(getComputedStyle(field, "::placeholder").color), [behind(field)])
    probe.remove()
    return pale
}"""


@pytest.mark.parametrize(("least", "found"), [(4.5, ["pale"]), (LEAST, ["pale", "middling"])])
def test_pale_letters_would_be_seen(browser_page, least, found):
    """#777 on white is 4.48 to 1 and #767676 4.54 to 1: the pair that WCAG's techniques use (from memory)."""
    browser_page.set_content(
        "<body bgcolor='#ffffff'><p><font color='#777777'>pale</font> <font color='#767676'>middling</font> black"
    )

    assert [text for _, _, text in browser_page.evaluate(TOO_PALE, least)] == found


def test_pale_letters_of_a_drawing_and_of_an_empty_field_would_be_seen(browser_page):
    browser_page.set_content(
        "<style>:root{--paper:#fff;--sheet:#fff}::placeholder{color:#aaa}</style><input placeholder='a name'>"
        "<svg><circle r='9' fill='#000'/><text fill='#222'>1</text></svg><svg><text fill='#222'>2</text></svg>"
    )

    assert [text for _, _, text in browser_page.evaluate(TOO_PALE, LEAST)] == ["1", "a name"]
