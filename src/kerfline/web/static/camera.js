// Where the eye is: a scale in pixels per mm and a shift in pixels. World y points up, screen y down.

const LEAST_SPAN = 300;
const MOST_SPAN = 60;

export class Camera {
  constructor(svg, world) {
    this.svg = svg;
    this.world = world;
    this.scale = 0.05;
    this.left = 0;
    this.top = 0;
    this.bounds = [0, 0, 1000, 1000];
    this.fitted = true;
    this.held = false;
    this.listeners = [];
    new ResizeObserver(() => (this.fitted && !this.held ? this.fit() : this.apply())).observe(svg);
  }

  onChange(listener) {
    this.listeners.push(listener);
  }

  size() {
    return [this.svg.clientWidth || 1, this.svg.clientHeight || 1];
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
    this.frame(this.bounds, 64);
    this.fitted = true;
  }

  frame([x0, y0, x1, y1], margin) {
    const [width, height] = this.size();
    const room = Math.min(margin, Math.max(width, height) / 9);
    this.scale = Math.min(
      (width - 2 * room) / Math.max(x1 - x0, 1),
      (height - 2 * room) / Math.max(y1 - y0, 1),
    );
    this.left = width / 2 - (this.scale * (x0 + x1)) / 2;
    this.top = height / 2 + (this.scale * (y0 + y1)) / 2;
    this.apply();
  }

  zoom(factor, at = undefined) {
    const [width, height] = this.size();
    const [px, py] = at ?? [width / 2, height / 2];
    const [x, y] = this.toWorld(px, py);
    const whole = Math.max(this.bounds[2] - this.bounds[0], this.bounds[3] - this.bounds[1]);
    const least = Math.min(width, height) / (whole * MOST_SPAN) * 10;
    const most = Math.min(width, height) / LEAST_SPAN;
    this.scale = Math.min(Math.max(this.scale * factor, least), Math.max(most, least));
    this.left = px - this.scale * x;
    this.top = py + this.scale * y;
    this.fitted = false;
    this.apply();
  }

  pan(dx, dy) {
    this.left += dx;
    this.top += dy;
    this.fitted = false;
    this.apply();
  }

  goTo([x, y], reach) {
    this.frame([x - reach, y - reach, x + reach, y + reach], 20);
    this.fitted = false;
  }

  toWorld(px, py) {
    return [(px - this.left) / this.scale, (this.top - py) / this.scale];
  }

  toScreen([x, y]) {
    return [this.left + this.scale * x, this.top - this.scale * y];
  }

  eventPoint(event) {
    const box = this.svg.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  apply() {
    const [width, height] = this.size();
    this.svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    this.world.setAttribute("transform", `translate(${this.left} ${this.top}) scale(${this.scale})`);
    this.svg.style.setProperty("--px", `${1 / this.scale}px`);
    this.svg.style.setProperty("--k", 1 / this.scale);
    for (const listener of this.listeners) listener(this);
  }
}
