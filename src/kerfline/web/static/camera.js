// Where the eye is: a scale in pixels per mm and a shift in pixels. World y points up, screen y down.
//
// While the view moves under a hand the drawing is shifted and stretched as it was last drawn, which costs
// next to nothing however much is on it; it is drawn anew when the hand rests or its rim comes into sight.

const LEAST_SPAN = 300;
const MOST_SPAN = 60;
const REST = 110;
// How much is drawn beyond each side of the frame, as a share of it; the style sheet says the same.
const RIM = 0.25;
// A screen is narrow up to this many pixels, as in the style sheet; room around its row of buttons.
const NARROW = 600;
const BELOW_BUTTONS = 16;

export class Camera {
  constructor(svg, layers) {
    this.svg = svg;
    this.layers = layers;
    this.roomy = svg.classList.contains("roomy");
    this.frame = this.roomy ? svg.parentElement : svg;
    this.scale = 0.05;
    this.left = 0;
    this.top = 0;
    this.bounds = [0, 0, 1000, 1000];
    this.fitted = true;
    this.held = false;
    this.listeners = [];
    this.size = [1, 1];
    new ResizeObserver(() => {
      this.measure();
      if (this.fitted && !this.held) this.fit();
      else this.settle();
    }).observe(this.frame);
  }

  onSettle(listener) {
    this.listeners.push(listener);
  }

  // Read when the frame changes only: asking the browser for sizes makes it lay out the page.
  measure() {
    const { frame } = this;
    const box = frame.getBoundingClientRect();
    // To the fraction of a pixel and within the border, as the style sheet reckons: a tap lands where it is seen to.
    this.size = [box.width - (frame.offsetWidth - frame.clientWidth) || 1, box.height - (frame.offsetHeight - frame.clientHeight) || 1];
    this.rim = this.roomy ? this.size.map((side) => side * RIM) : [0, 0];
  }

  show(bounds) {
    this.bounds = bounds;
    if (this.fitted && !this.held) this.fit();
  }

  // While something is dragged the view stands still, even where the slab grows under the pointer.
  hold(on) {
    if (this.held && !on && this.fitted) this.fit();
    this.held = on;
  }

  fit() {
    this.fitting([...this.bounds], 64);
    this.fitted = true;
  }

  // On a narrow screen the zoom buttons would lie over the right-hand corners, out of a finger's reach.
  covered() {
    const buttons = this.size[0] <= NARROW && this.frame.querySelector(".zoom");
    return buttons ? buttons.offsetHeight + BELOW_BUTTONS : 0;
  }

  fitting([x0, y0, x1, y1], margin) {
    this.measure();
    const [width, height] = this.size;
    const room = Math.min(margin, Math.min(width, height) / 8);
    const above = Math.max(this.covered() - room, 0);
    this.scale = Math.min(
      Math.max(width - 2 * room, 20) / Math.max(x1 - x0, 1),
      Math.max(height - above - 2 * room, 20) / Math.max(y1 - y0, 1),
    );
    this.left = width / 2 - (this.scale * (x0 + x1)) / 2;
    this.top = (height + above) / 2 + (this.scale * (y0 + y1)) / 2;
    this.settle();
  }

  // `live` is a hand that goes on moving.
  zoom(factor, at = undefined, live = false) {
    const [width, height] = this.size;
    const [px, py] = at ?? [width / 2, height / 2];
    const [x, y] = this.toWorld(px, py);
    const whole = Math.max(this.bounds[2] - this.bounds[0], this.bounds[3] - this.bounds[1]);
    const least = (Math.min(width, height) / (whole * MOST_SPAN)) * 10;
    const most = Math.min(width, height) / LEAST_SPAN;
    this.scale = Math.min(Math.max(this.scale * factor, least), Math.max(most, least));
    this.left = px - this.scale * x;
    this.top = py + this.scale * y;
    this.went(live);
  }

  pan(dx, dy, live = false) {
    this.left += dx;
    this.top += dy;
    this.went(live);
  }

  goTo([x, y], reach) {
    this.fitting([x - reach, y - reach, x + reach, y + reach], 20);
    this.fitted = false;
  }

  toWorld(px, py) {
    return [(px - this.left) / this.scale, (this.top - py) / this.scale];
  }

  toScreen([x, y]) {
    return [this.left + this.scale * x, this.top - this.scale * y];
  }

  // The part of the world that is drawn, the rim included.
  window() {
    const [width, height] = this.size;
    const [mx, my] = this.rim;
    const [x0, y0] = this.toWorld(-mx, height + my);
    const [x1, y1] = this.toWorld(width + mx, -my);
    return [x0, y0, x1, y1];
  }

  eventPoint(event) {
    const box = this.frame.getBoundingClientRect();
    return [event.clientX - box.left - this.frame.clientLeft, event.clientY - box.top - this.frame.clientTop];
  }

  went(live) {
    this.fitted = false;
    if (!live) {
      this.settle();
      return;
    }
    this.svg.style.willChange = "transform";
    this.moving ??= requestAnimationFrame(() => this.shift());
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.settle(), REST);
  }

  // Shifts and stretches what is drawn to where the eye is now.
  shift() {
    this.moving = undefined;
    const { drawn } = this;
    if (!drawn) return;
    const k = this.scale / drawn.scale;
    const [mx, my] = this.rim;
    const [x, y] = [this.left - k * drawn.left + mx - k * mx, this.top - k * drawn.top + my - k * my];
    const [width, height] = this.size;
    const bare = x > mx || y > my || x - mx + k * (width + 2 * mx) < width || y - my + k * (height + 2 * my) < height;
    if (bare && performance.now() - this.settled > REST) this.settle();
    else this.svg.style.transform = `matrix(${k},0,0,${k},${x},${y})`;
  }

  settle() {
    clearTimeout(this.resting);
    if (this.moving) cancelAnimationFrame(this.moving);
    this.moving = undefined;
    const [mx, my] = this.rim ?? [0, 0];
    const [width, height] = this.size;
    const stretched = this.drawn?.scale !== this.scale;
    this.drawn = { scale: this.scale, left: this.left, top: this.top };
    this.svg.style.transform = "";
    this.svg.style.willChange = "";
    this.svg.setAttribute("viewBox", `${-mx} ${-my} ${width + 2 * mx} ${height + 2 * my}`);
    for (const layer of this.layers) layer.setAttribute("transform", `translate(${this.left} ${this.top}) scale(${this.scale})`);
    if (stretched) {
      this.svg.style.setProperty("--px", `${1 / this.scale}px`);
      this.svg.style.setProperty("--k", 1 / this.scale);
    }
    for (const listener of this.listeners) listener(this, stretched);
    this.settled = performance.now();
  }
}
