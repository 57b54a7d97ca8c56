// A step's form saves itself soon after a change. What could not be sent stays on this device and is offered again.
// `data-saves`: saved by itself; `data-keeps`: only kept here.
const PREFIX = "unsent:";
const SENT = "sent:";
const CARRIED = ["revision", "shown"];
const told = document.querySelector("[data-saved]");
const here = location.pathname;
const key = PREFIX + here;
const tell = (words, is) => { if (told) { told.textContent = words; told.classList.toggle("unsaved", !is); } };

function fields(form) {
  const own = ["csrfmiddlewaretoken", ...CARRIED, "token"];
  return JSON.stringify([...new FormData(form)].filter(([name, value]) => typeof value === "string" && !own.includes(name)));
}

function keep(name, value) {
  try { value === null ? localStorage.removeItem(name) : localStorage.setItem(name, value); } catch {}
}

function kept(name) {
  try { return localStorage.getItem(name); } catch { return null; }
}

function fill(form, text) {
  const pairs = JSON.parse(text);
  for (const field of form.elements) {
    const values = pairs.filter(([name]) => name === field.name).map(([, value]) => value);
    if (["radio", "checkbox"].includes(field.type)) field.checked = values.includes(field.value);
    else if (values.length) field.value = values[0];
  }
}

function offer(form, text) {
  const box = Object.assign(document.createElement("div"), { className: "notice", role: "status" });
  const act = (textContent, work) => Object.assign(document.createElement("button"), {
    type: "button", className: "small", textContent,
    onclick() { work(); box.remove(); form.querySelector("input,textarea,select").focus(); },
  });
  box.append(
    "On this device stands something that was not sent. ",
    act("Bring it back", () => { fill(form, text); form.dispatchEvent(new Event("input")); }), " ",
    act("Throw it away", () => keep(key, null)),
  );
  form.before(box);
}

// What a form that led on sent has arrived.
try {
  for (const name of Object.keys(localStorage)) {
    if (name.startsWith(SENT) && name !== SENT + here) {
      keep(PREFIX + name.slice(SENT.length), null);
      keep(name, null);
    }
  }
} catch {}
keep(SENT + here, null);

for (const form of document.querySelectorAll("form[data-saves],form[data-keeps]")) {
  let saved = fields(form), timer, busy = false;
  const before = kept(key);
  if (before && before !== saved) offer(form, before);
  else keep(key, null);

  async function save() {
    clearTimeout(timer);
    const sending = fields(form);
    if (busy || sending === saved) return;
    busy = true;
    try {
      const answer = await fetch(form.action, { method: "POST", body: new FormData(form), headers: { "X-Saves-Quietly": "yes" } });
      const said = await answer.json();
      for (const name of CARRIED) if (said[name] !== undefined && form.elements[name]) form.elements[name].value = said[name];
      if (answer.ok) {
        saved = sending;
        if (fields(form) === sending) keep(key, null);
        tell(said.saved + ". Only you see it.", true);
      } else tell((said.saved ? said.saved + ", but not this: " : "Not saved yet: ") + said.fault);
    } catch {
      tell("No connection. What you typed is kept on this device.");
    }
    busy = false;
  }

  form.addEventListener("input", () => {
    keep(key, fields(form));
    if (!("saves" in form.dataset)) return;
    tell("Not saved yet …");
    clearTimeout(timer);
    timer = setTimeout(save, 3000);
  });
  form.addEventListener("submit", () => { clearTimeout(timer); keep(key, fields(form)); });
  if ("saves" in form.dataset) addEventListener("online", save);
}

// Nothing leaves the page before the site answers, so that a dead line takes neither page nor words away; and a second
// tap does nothing.
const NO_LINE = Object.assign(document.createElement("p"), {
  className: "notice fault", role: "alert",
  textContent: "No connection. Nothing is lost: it is all still here. Tap again when there is one.",
});
let gone = false, sure = false;

function siteAnswers() {
  const asked = fetch(import.meta.url, { method: "HEAD", cache: "no-store", signal: AbortSignal.timeout(9000) });
  return asked.then(({ ok }) => ok, () => false);
}

async function leave(event, tapped, go) {
  event.preventDefault();
  if (gone) return;
  gone = true;
  NO_LINE.remove();
  if (await siteAnswers()) return go();
  gone = false;
  tapped.parentNode.before(NO_LINE);
  NO_LINE.scrollIntoView({ block: "center" });
}

document.addEventListener("submit", (event) => {
  const form = event.target, button = event.submitter;
  if (sure || !form.matches(".step-form")) { sure = false; return; }
  leave(event, button || form.lastChild, () => { sure = true; keep(SENT + here, "yes"); form.requestSubmit(button); });
});
document.addEventListener("click", (event) => {
  const link = event.target.closest(".thumb-bar a");
  if (link && !event.ctrlKey && !event.metaKey) leave(event, link, () => { gone = false; location = link.href; });
});
addEventListener("pageshow", () => { gone = sure = false; });
