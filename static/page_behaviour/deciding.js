// Single keys on the screen where a piece is decided. They choose, they never send; off while something is typed, and
// off altogether where the box is unticked (kept on this device).
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
      form.querySelector(`[name=decision][value=${CHOICES[key]}]`).checked = true;
      reason.focus();
    } else if (key === "n") document.querySelector("a[rel=next]")?.click();
    else if (key === "s") document.querySelector("#seen")?.scrollIntoView();
    else return;
    event.preventDefault();
  });
  let sent = false;
  form.addEventListener("submit", (event) => { if (sent) event.preventDefault(); sent = true; });
}
