/** The mold on a canvas: drawn only when something changed. */

import { OrthographicCamera, Plane, Scene, Vector3, WebGLRenderer } from "three";
import { Arrow } from "./arrow";
import { Body } from "./body";
import { pick, type Picked } from "./pick";
import { token } from "./paint";
import { OF_COATS, OF_PIECES, PLAIN } from "./patterns";
import type { Solid } from "./solids";
import type { Quantity } from "./told";
import { Turning } from "./turn";

const MOST_RATIO = 2;
const SEEN = 0.39;
/** Room over the pieces for their names, as a share more. */
const FOR_NAMES = 1.14;

export interface Shown {
  /** The outermost solid that is laid, by its id; "shell" for all. */
  upTo: string;
  apart_mm: number;
  cut_mm: number;
  quantity: Quantity | null;
  /** Whether patterns tell what colors tell. */
  patterned: boolean;
  /** The one piece of the shell that is seen from inside. */
  inside: string | null;
}

export class View {
  readonly turning: Turning;
  readonly bodies: Body[];
  readonly across: number;
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new OrthographicCamera();
  private readonly plane = new Plane(new Vector3(0, 1, 0), 0);
  private readonly planes: Plane[] = [];
  private readonly middle = new Vector3();
  private readonly arrows: Arrow[] = [];
  private shown: Shown = { upTo: "shell", apart_mm: 0, cut_mm: 0, quantity: null, patterned: false, inside: null };
  private wide = 0;
  private waiting = 0;
  private colored = false;

  constructor(
    private readonly canvas: HTMLCanvasElement,
    solids: readonly Solid[],
    private readonly packing: Quantity | null,
    pressed: (place: Picked | null) => void,
    private readonly drawn: () => void,
  ) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true, stencil: true, alpha: true });
    this.renderer.localClippingEnabled = true;
    this.across = this.measure(solids);
    this.bodies = solids.map((solid, n) => new Body(solid, this.planes, solids.length - n, this.across));
    for (const body of this.bodies) this.scene.add(body.group, body.face);
    for (const body of this.pieces()) this.arrows.push(new Arrow(this.scene, body, this.across));
    this.turning = new Turning(canvas, () => this.draw(), (x, y) => pressed(this.at(x, y)));
    this.turning.gaze.azimuth = this.aside();
    new ResizeObserver(() => this.fit()).observe(canvas);
    canvas.addEventListener("webglcontextrestored", () => this.draw());
  }

  show(shown: Shown): void {
    if (shown.cut_mm > 0 && this.shown.cut_mm === 0) this.turnPlane();
    const colored = this.colored && shown.quantity === this.shown.quantity;
    this.shown = { ...shown };
    const cut = shown.cut_mm > 0;
    this.planes.splice(0, 1, ...(cut ? [this.plane] : []));
    this.plane.constant = this.wide / 2 - shown.cut_mm - this.plane.normal.dot(this.middle);
    const last = this.bodies.findIndex((body) => body.solid.id === this.outermost());
    this.bodies.forEach((body, n) => this.showBody(body, n === last, n <= last, cut));
    for (const arrow of this.arrows) arrow.show(shown);
    for (const body of this.bodies) body.patterned(shown.patterned);
    if (!colored) this.color();
    this.draw();
  }

  /** Colors anew, when the look changed. */
  color(): void {
    const { quantity } = this.shown;
    this.colored = true;
    for (const body of this.bodies) {
      if (quantity && body.solid.quantities.has(quantity.name)) body.leaved(quantity);
      else body.plain(this.colorOf(body.solid), quantity ? null : this.packing, this.patternOf(body.solid));
    }
    for (const arrow of this.arrows) arrow.color(token("ink"));
  }

  /** Soon, and once for whatever changed until then. */
  draw(): void {
    this.waiting ||= requestAnimationFrame(() => {
      this.waiting = 0;
      this.drawNow();
    });
  }

  /** What is seen, as a picture for paper. */
  picture(): string {
    this.drawNow();
    return this.canvas.toDataURL();
  }

  private drawNow(): void {
    this.aim();
    for (const body of this.bodies) if (this.shown.cut_mm > 0) body.lie(this.middle);
    this.renderer.render(this.scene, this.camera);
    this.drawn();
  }

  /** Millimeters that one pixel of the page shows. */
  get mm_per_px(): number {
    return (this.camera.right - this.camera.left) / this.camera.zoom / Math.max(1, this.canvas.clientWidth);
  }

  /** Where a place is on the canvas [px]. */
  seenAt(place: Vector3): { x: number; y: number } {
    const at = place.clone().project(this.camera);
    return { x: ((at.x + 1) / 2) * this.canvas.clientWidth, y: ((1 - at.y) / 2) * this.canvas.clientHeight };
  }

  /** Whether the surface at a corner is turned toward whoever looks. */
  faces(body: Body, corner: number): boolean {
    return body.outward(corner).dot(this.camera.getWorldDirection(new Vector3())) < 0;
  }

  /** Looked at from where the surface at a corner faces. */
  lookAt(body: Body, corner: number): void {
    const { x, y, z } = body.outward(corner);
    this.turning.look(Math.atan2(x, -y), Math.asin(Math.max(-1, Math.min(1, z))));
  }

  /** Where the point of a piece's arrow is on the canvas [px]. */
  arrowAt(body: Body): { x: number; y: number } {
    return this.seenAt(this.arrows.find((arrow) => arrow.body === body)?.point ?? body.top);
  }

  pieces(): Body[] {
    return this.bodies.filter((body) => body.solid.draw);
  }

  private showBody(body: Body, outermost: boolean, laid: boolean, cut: boolean): void {
    const { inside, upTo, apart_mm } = this.shown;
    if (body.solid.draw) {
      body.group.position.fromArray(body.solid.draw).multiplyScalar(apart_mm);
      body.show(inside ? inside === body.solid.id : upTo === "shell", true, cut);
    } else body.show(!inside && laid && (outermost || cut || this.isBare(body)), outermost || this.isBare(body), cut);
    body.group.updateMatrixWorld(true);
  }

  /** Original and plinth stand side by side: neither hides the other. */
  private isBare(body: Body): boolean {
    const bare = ["original", "mount"];
    return bare.includes(body.solid.kind) && bare.includes(this.bodies.find((b) => b.solid.id === this.outermost())?.solid.kind ?? "");
  }

  private outermost(): string {
    const { quantity, upTo } = this.shown;
    const inner = this.bodies.filter((body) => !body.solid.draw);
    return quantity?.part ?? (upTo === "shell" ? (inner[inner.length - 1]?.solid.id ?? "") : upTo);
  }

  private colorOf(solid: Solid): string {
    const coat = this.coatOf(solid);
    return token(coat === null ? ({ shell: "plaster", mount: "edge" }[solid.kind] ?? "original") : `coat${(coat % 3) + 1}`);
  }

  private patternOf(solid: Solid): number {
    const coat = this.coatOf(solid);
    if (coat !== null) return OF_COATS[coat % OF_COATS.length] ?? PLAIN;
    return solid.draw ? (OF_PIECES[this.pieces().findIndex((body) => body.solid === solid) % OF_PIECES.length] ?? PLAIN) : PLAIN;
  }

  /** Which coat a solid ends with, from 0; null for what is none of rubber. */
  private coatOf(solid: Solid): number | null {
    const coats = this.bodies.filter((body) => body.solid.kind === "coat").map((body) => body.solid);
    if (solid.kind === "rubber") return coats.length - 1;
    return solid.kind === "coat" ? coats.indexOf(solid) : null;
  }

  private measure(solids: readonly Solid[]): number {
    const low = new Vector3(Infinity, Infinity, Infinity);
    const high = new Vector3(-Infinity, -Infinity, -Infinity);
    const place = new Vector3();
    for (const { places } of solids) {
      for (let n = 0; n < places.length; n += 3) {
        place.fromArray(places, n);
        low.min(place);
        high.max(place);
      }
    }
    this.middle.addVectors(low, high).multiplyScalar(0.5);
    this.wide = Math.hypot(high.x - low.x, high.y - low.y);
    return low.distanceTo(high);
  }

  /** From where the first piece is seen to move sideways, and a little toward whoever looks. */
  private aside(): number {
    const [x = 1, y = 0] = this.pieces()[0]?.solid.draw ?? [];
    return Math.hypot(x, y) < 0.2 ? 0.5 : Math.atan2(y, x) + 0.4;
  }

  /** The cut faces whoever looks when it begins, upright. */
  private turnPlane(): void {
    const { azimuth } = this.turning.gaze;
    this.plane.normal.set(-Math.sin(azimuth), Math.cos(azimuth), 0);
  }

  private aim(): void {
    const { azimuth, height, zoom, right, up } = this.turning.gaze;
    const away = new Vector3(Math.sin(azimuth) * Math.cos(height), -Math.cos(azimuth) * Math.cos(height), Math.sin(height));
    const tall = (this.across * SEEN + 0.85 * this.apartUpward(away)) * (this.apart_mm > 0 ? FOR_NAMES : 1);
    const aspect = this.canvas.clientWidth / Math.max(1, this.canvas.clientHeight);
    const half = Math.max(tall, (this.across * SEEN + this.apart_mm * 0.85) / aspect);
    Object.assign(this.camera, { left: -half * aspect, right: half * aspect, top: half, bottom: -half, zoom });
    Object.assign(this.camera, { near: 0.1, far: 12 * this.across });
    this.camera.up.set(0, 0, 1);
    this.camera.position.copy(this.middle).addScaledVector(away, 5 * this.across);
    this.camera.lookAt(this.middle);
    this.camera.updateMatrixWorld();
    this.camera.translateX(right * 2 * half * aspect);
    this.camera.translateY(up * 2 * half);
    this.camera.updateMatrixWorld();
    this.camera.updateProjectionMatrix();
  }

  /** How far the pieces that are seen are drawn apart [mm]. */
  private get apart_mm(): number {
    const { inside, upTo, apart_mm } = this.shown;
    return upTo === "shell" && !inside ? apart_mm : 0;
  }

  /** How far pieces are drawn upward or downward on the canvas, seen from there [mm]. */
  private apartUpward(away: Vector3): number {
    const up = new Vector3(0, 0, 1).addScaledVector(away, -away.z).normalize();
    return this.apart_mm * Math.max(0, ...this.pieces().map(({ solid }) => Math.abs(up.dot(new Vector3().fromArray(solid.draw ?? [])))));
  }

  private fit(): void {
    const { clientWidth, clientHeight } = this.canvas;
    if (!clientWidth || !clientHeight) return;
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, MOST_RATIO));
    this.renderer.setSize(clientWidth, clientHeight, false);
    this.draw();
  }

  private at(x: number, y: number): Picked | null {
    const box = this.canvas.getBoundingClientRect();
    const [right, up] = [((x - box.left) / box.width) * 2 - 1, 1 - ((y - box.top) / box.height) * 2];
    this.aim();
    const seen = this.bodies.filter((body) => body.group.visible && body.surface.visible);
    return pick(this.camera, right, up, seen, this.planes);
  }
}
