// Single keys on the screen where a piece is decided. They choose, they never send; off while something is typed, and
// off altogether where the box is unticked (kept on this device). What was chosen and written and not sent is kept for
// its piece while the tab is open, so that going on to the next piece loses nothing.
const form = document.querySelector("form[data-decides]");
const KEPT = "single-keys";
const CHOICES = { a: "accepted", r: "returned", d: "declined" };

function kept() {
  try { return localStorage.getItem(KEPT) !== "off"; } catch { return true; }
}

if (form) {
  const box = form.querySelector("[data-keys-on]");
  const reason = form.elements.reason;
  form.querySelector("[data-keys]").hidden = false;
  box.checked = kept();
  box.addEventListener("change", () => { try { localStorage.setItem(KEPT, box.checked ? "on" : "off"); } catch {} });
  reason.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) form.requestSubmit();
  });
  document.addEventListener("keydown", (event) => {
    const typing = event.target.closest("input:not([type=radio],[type=checkbox]),textarea,select,[contenteditable]");
    if (!box.checked || typing || event.ctrlKey || event.metaKey || event.altKey) return;
    const key = event.key.toLowerCase();
    if (CHOICES[key]) {
      form.querySelector(`[name=decision][value=${CHOICES[key]}]`).click();
      reason.focus();
    } else if (key === "n") document.querySelector("a[rel=next]")?.click();
    else if (key === "s") document.querySelector("#seen")?.scrollIntoView();
    else return;
    event.preventDefault();
  });
  const half = `half-written:${location.pathname}`;
  const fields = ["decision", "version", "reason"];
  const written = () => Object.fromEntries(fields.map((name) => [name, form.elements[name].value]));
  const before = JSON.stringify(written());
  try {
    const was = JSON.parse(sessionStorage.getItem(half));
    if (was && !reason.value) {
      for (const name of fields) if (was[name]) form.elements[name].value = was[name];
      form.querySelector("[data-brought-back]").hidden = false;
    }
  } catch {}
  form.addEventListener("input", () => {
    const now = JSON.stringify(written());
    try { now === before ? sessionStorage.removeItem(half) : sessionStorage.setItem(half, now); } catch {}
  });
  let sent = false;
  form.addEventListener("submit", (event) => {
    if (sent) event.preventDefault();
    sent = true;
    try { sessionStorage.removeItem(half); } catch {}
  });
}
