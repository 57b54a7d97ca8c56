// Pictures go out one by one as soon as they are chosen; a refused one spoils no other.
function send(form, file, bar) {
  const body = new FormData(form);
  body.delete("photographs");
  body.append("photographs", file);
  return new Promise((done) => {
    const request = new XMLHttpRequest();
    request.open("POST", form.action);
    request.setRequestHeader("X-Saves-Quietly", "yes");
    request.upload.onprogress = ({ loaded, total }) => { bar.value = loaded / (total || Infinity); };
    request.onloadend = () => {
      let said = {};
      try { said = JSON.parse(request.responseText); } catch {}
      if (request.status === 200) done({ refused: said.refused });
      else done({ refused: [`“${file.name}”: ${said.fault || "the connection broke off."}`], brokeOff: !said.fault });
    };
    request.send(body);
  });
}

async function refresh() {
  const answer = await fetch(location.href).catch(() => null);
  if (!answer || !answer.ok) return;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  document.getElementById("main").replaceChildren(...page.querySelectorAll("#main>:not(script)"));
}

const made = (tag, its) => Object.assign(document.createElement(tag), its);

async function upload(form, files) {
  const line = made("p"), bar = made("progress"), refused = [], again = [];
  const told = document.getElementById("upload-told");
  told.replaceChildren(line, bar);
  told.scrollIntoView({ block: "nearest" });
  for (const [place, file] of files.entries()) {
    bar.ariaLabel = line.textContent = `Sending ${place + 1} of ${files.length}: ${file.name.slice(0, 60)}`;
    bar.value = 0;
    const became = await send(form, file, bar);
    refused.push(...became.refused);
    if (became.brokeOff) again.push(file);
  }
  await refresh();
  const arrived = files.length - refused.length;
  const box = made("div", { tabIndex: -1, className: refused.length ? "notice fault" : "" }), list = made("ul");
  list.append(...refused.map((textContent) => made("li", { textContent })));
  box.append(made("p", { textContent: `${arrived} of ${files.length} arrived and ${arrived === 1 ? "is" : "are"} kept.` }), list);
  if (again.length) {
    const textContent = `Send ${again.length > 1 ? `these ${again.length}` : "it"} again`;
    box.append(made("button", { type: "button", className: "answer", textContent, onclick: () => upload(form, again) }));
  }
  document.getElementById("upload-told").replaceChildren(box);
  box.focus();
}

document.addEventListener("change", (event) => {
  const form = event.target.closest("form[data-upload]");
  if (!form || event.target.type !== "file") return;
  const files = [...event.target.files];
  event.target.value = ""; // so that the same file can be chosen again
  if (files.length) upload(form, files);
});
document.documentElement.classList.add("with-script");
