// Draws the area to be blurred with finger, pen or mouse; the grid below stays for those who tick.
const form = document.querySelector("form[data-blur]");
const board = form.querySelector(".blur-picture");
const frame = document.createElement("div");
frame.className = "drawn-area";
let from = null;

const share = (event) => {
  const box = board.getBoundingClientRect();
  const within = (value) => Math.min(1, Math.max(0, value));
  return [within((event.clientX - box.left) / box.width), within((event.clientY - box.top) / box.height)];
};

board.addEventListener("pointerdown", (event) => { from = share(event); });
board.addEventListener("pointermove", (event) => {
  if (!from) return;
  const to = share(event), x = Math.min(from[0], to[0]), y = Math.min(from[1], to[1]);
  const w = Math.abs(from[0] - to[0]), h = Math.abs(from[1] - to[1]);
  if (w < 0.02 && h < 0.02) return;
  board.setPointerCapture(event.pointerId);
  board.append(frame);
  Object.assign(frame.style, { left: `${x * 100}%`, top: `${y * 100}%`, width: `${w * 100}%`, height: `${h * 100}%` });
  form.elements.area.value = [x, y, w, h].map((part) => part.toFixed(4)).join(",");
});
board.onpointerup = board.onpointercancel = () => { from = null; };
