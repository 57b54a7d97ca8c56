// The drawing follows what is chosen in the form, and its places lead to what is there; without this script the buttons
// below it do.
const form = document.querySelector("form[data-previews]");

if (form) {
  const board = form.querySelector("[data-figure]");
  let waiting = 0, asked = 0;

  const draw = async () => {
    const turn = ++asked;
    const sent = new FormData(form);
    sent.set("_quietly", "1");
    const answer = await fetch(location.pathname, { method: "POST", body: sent }).catch(() => null);
    if (!answer?.ok || turn !== asked) return;
    const open = board.querySelector("details[open]")?.dataset.view;
    const made = new DOMParser().parseFromString(await answer.text(), "text/html").body;
    if (turn !== asked || !made.querySelector("details[data-view]")) return;
    for (const view of made.querySelectorAll("details")) view.open = view.dataset.view === open;
    board.replaceChildren(...made.childNodes);
  };

  form.addEventListener("change", (event) => {
    if (event.target.name === "_place") return;
    clearTimeout(waiting);
    waiting = setTimeout(draw, 250);
  });
  board.addEventListener("click", (event) => {
    const link = event.target.closest(".places a");
    const radio = link && document.getElementById(link.getAttribute("href").slice(1))?.querySelector("input");
    if (!radio) return;
    event.preventDefault();
    radio.checked = true;
    form.requestSubmit(form.querySelector("[name=_here]"));
  });
}
