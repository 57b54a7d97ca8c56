// Pictures go out one by one as soon as they are chosen; a refused one spoils no other.
function send(form, file, bar) {
  const body = new FormData(form);
  body.delete("photographs");
  body.append("photographs", file);
  return new Promise((done) => {
    const request = new XMLHttpRequest();
    request.open("POST", form.action || location.href);
    request.setRequestHeader("X-Saves-Quietly", "yes");
    request.upload.addEventListener("progress", (event) => { if (event.lengthComputable) bar.value = event.loaded / event.total; });
    request.addEventListener("loadend", () => {
      let said = {};
      try { said = JSON.parse(request.responseText); } catch {}
      if (request.status === 200) done(said.refused);
      else done([`“${file.name}”: ${said.fault || "the connection broke off. Choose it again."}`]);
    });
    request.send(body);
  });
}

async function refresh() {
  const answer = await fetch(location.href).catch(() => null);
  if (!answer || !answer.ok) return;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  document.getElementById("main").replaceChildren(...[...page.getElementById("main").children].filter((part) => part.tagName !== "SCRIPT"));
}

async function upload(form, files) {
  const line = document.createElement("p"), bar = document.createElement("progress"), refused = [];
  const told = document.getElementById("upload-told");
  told.replaceChildren(line, bar);
  told.scrollIntoView({ block: "nearest" });
  for (const [place, file] of files.entries()) {
    line.textContent = `Sending ${place + 1} of ${files.length}: ${file.name.slice(0, 60)}`;
    bar.value = 0;
    bar.setAttribute("aria-label", line.textContent);
    refused.push(...(await send(form, file, bar)));
  }
  await refresh();
  const list = document.createElement("div");
  list.tabIndex = -1;
  const arrived = files.length - refused.length;
  list.innerHTML = "<p></p><ul></ul>";
  list.firstChild.textContent = `${arrived} of ${files.length} arrived and ${arrived === 1 ? "is" : "are"} kept.`;
  for (const words of refused) list.lastChild.append(Object.assign(document.createElement("li"), { textContent: words }));
  if (refused.length) list.className = "notice fault";
  document.getElementById("upload-told").replaceChildren(list);
  list.focus();
}

document.addEventListener("change", (event) => {
  const form = event.target.closest("form[data-upload]");
  if (!form || event.target.type !== "file") return;
  const files = [...event.target.files];
  event.target.value = ""; // or the same file chosen again would be no change
  if (files.length) upload(form, files);
});
document.documentElement.classList.add("with-script");
