// The ring on a photograph follows a tap, the arrow keys and the numbers; without this script the numbers do.
const form = document.querySelector("form[data-marks]");
const board = form.querySelector(".marked");
const picture = board.querySelector("img");
const rings = board.querySelectorAll("circle");
const fields = ["x", "y", "radius"].map((name) => form.elements[name]);
const [wide, high] = [Number(picture.getAttribute("width")), Number(picture.getAttribute("height"))];
const STEP = { ArrowLeft: [-1, 0, 0], ArrowRight: [1, 0, 0], ArrowUp: [0, -1, 0], ArrowDown: [0, 1, 0],
  "+": [0, 0, 1], "=": [0, 0, 1], "-": [0, 0, -1] };

function draw() {
  const [x, y, radius] = fields.map((field) => Number(field.value) / 100);
  for (const ring of rings) {
    ring.setAttribute("cx", x * wide);
    ring.setAttribute("cy", y * high);
    ring.setAttribute("r", radius * Math.max(wide, high));
  }
}

function set(values) {
  values.forEach((value, place) => {
    const within = Math.min(Number(fields[place].max), Math.max(Number(fields[place].min), value));
    fields[place].value = Math.round(within * 10) / 10;
  });
  draw();
}

form.querySelector("[data-with-script]").hidden = false;
board.tabIndex = 0;
board.setAttribute("role", "application");
board.setAttribute("aria-label", "The spot: arrow keys move it, plus and minus make it larger and smaller");
board.addEventListener("click", (event) => {
  const box = picture.getBoundingClientRect();
  set([((event.clientX - box.left) / box.width) * 100, ((event.clientY - box.top) / box.height) * 100]);
});
board.addEventListener("keydown", (event) => {
  const step = STEP[event.key];
  if (!step || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  set(fields.map((field, place) => Number(field.value) + step[place]));
});
for (const field of fields) field.addEventListener("input", draw);
