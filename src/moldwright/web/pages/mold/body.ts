/** One solid on the screen: its surface, and what closes it where it is cut. */

import {
  BackSide, BufferAttribute, BufferGeometry, DecrementWrapStencilOp, FrontSide, Group, IncrementWrapStencilOp, KeepStencilOp, Mesh,
  MeshBasicMaterial, NotEqualStencilFunc, AlwaysStencilFunc, PlaneGeometry, ReplaceStencilOp, type Plane, type ShaderMaterial, type Side,
  type StencilOp, type WebGLRenderer, Vector3,
} from "three";
import { leaved, paint, pattern, plain } from "./paint";
import { NOTHING, type Solid } from "./solids";
import type { Quantity } from "./told";

/** A solid with its paint and its cap; the cap lies in the plane that cuts. */
export class Body {
  readonly group = new Group();
  readonly surface: Mesh<BufferGeometry, ShaderMaterial>;
  readonly middle = new Vector3();
  readonly top = new Vector3();
  private readonly counting: Mesh[];
  private readonly cap: Mesh<PlaneGeometry, ShaderMaterial>;
  /** What was laid on the surface once, by its name: it is not sent to be drawn again. */
  private readonly laid = new Map<string, BufferAttribute>();

  constructor(
    readonly solid: Solid,
    private readonly planes: Plane[],
    order: number,
    across: number,
  ) {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(solid.places, 3));
    geometry.setAttribute("normal", new BufferAttribute(solid.normals, 3));
    geometry.setIndex(new BufferAttribute(solid.corners, 1));
    geometry.computeBoundingBox();
    geometry.computeBoundingSphere();
    geometry.boundingBox?.getCenter(this.middle);
    this.top.copy(this.middle).setZ(geometry.boundingBox?.max.z ?? 0);
    this.surface = new Mesh(geometry, paint(across, planes));
    this.counting = [
      counter(geometry, planes, BackSide, IncrementWrapStencilOp, order),
      counter(geometry, planes, FrontSide, DecrementWrapStencilOp, order),
    ];
    this.cap = capOf(across, order);
    this.group.add(this.surface, ...this.counting);
  }

  /** The cap, which does not move with the solid. */
  get face(): Mesh {
    return this.cap;
  }

  /** The unit vector away from its surface at a corner. */
  outward(corner: number): Vector3 {
    return new Vector3().fromArray(this.solid.normals, 3 * corner).normalize();
  }

  plain(color: string, quantity: Quantity | null, own: number): void {
    this.lay(quantity);
    plain(this.surface.material, color, quantity?.allowed_mm ?? null, own);
    plain(this.cap.material, color, null, own);
  }

  leaved(quantity: Quantity): void {
    this.lay(quantity);
    leaved(this.surface.material, quantity);
  }

  patterned(on: boolean): void {
    for (const { material } of [this.surface, this.cap]) pattern(material, on);
  }

  /** Whether it is there at all, whether its surface is seen, whether it is cut. */
  show(there: boolean, seen: boolean, cut: boolean): void {
    this.group.visible = there;
    this.surface.visible = seen;
    for (const one of this.counting) one.visible = cut;
    this.cap.visible = there && cut;
  }

  /** The cap laid into the plane; all lie alike, so that of two at one place the later is seen. */
  lie(middle: Vector3): void {
    const plane = this.planes[0];
    if (!plane) return;
    plane.projectPoint(middle, this.cap.position);
    this.cap.lookAt(this.cap.position.clone().sub(plane.normal));
    this.cap.updateMatrixWorld();
  }

  private lay(quantity: Quantity | null): void {
    const name = quantity && this.solid.quantities.has(quantity.name) ? quantity.name : "";
    const laid = this.laid.get(name) ?? new BufferAttribute(this.valuesOf(name), 1);
    this.laid.set(name, laid);
    this.surface.geometry.setAttribute("quantity", laid);
  }

  private valuesOf(name: string): Float32Array {
    return this.solid.quantities.get(name) ?? new Float32Array(this.solid.places.length / 3).fill(NOTHING);
  }
}

function counter(geometry: BufferGeometry, planes: Plane[], side: Side, op: StencilOp, order: number): Mesh {
  const material = new MeshBasicMaterial({
    side,
    clippingPlanes: planes,
    colorWrite: false,
    depthWrite: false,
    depthTest: false,
    stencilWrite: true,
    stencilFunc: AlwaysStencilFunc,
    stencilFail: op,
    stencilZFail: op,
    stencilZPass: op,
  });
  const mesh = new Mesh(geometry, material);
  mesh.renderOrder = 10 * order + 1;
  return mesh;
}

function capOf(across: number, order: number): Mesh<PlaneGeometry, ShaderMaterial> {
  const material = paint(across, null);
  material.setValues({
    stencilWrite: true,
    stencilRef: 0,
    stencilFunc: NotEqualStencilFunc,
    stencilFail: KeepStencilOp,
    stencilZFail: ReplaceStencilOp,
    stencilZPass: ReplaceStencilOp,
  });
  const cap = new Mesh(new PlaneGeometry(4 * across, 4 * across), material);
  cap.renderOrder = 10 * order + 2;
  cap.onAfterRender = (renderer: WebGLRenderer) => renderer.clearStencil();
  return cap;
}
