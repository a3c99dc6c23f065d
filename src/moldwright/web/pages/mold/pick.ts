/** Which corner of which solid lies under a finger. */

import { DoubleSide, Raycaster, Vector2, Vector3, type Camera, type Plane } from "three";
import { acceleratedRaycast, MeshBVH } from "three-mesh-bvh";
import type { Body } from "./body";

export interface Picked {
  readonly body: Body;
  readonly corner: number;
}

const caster = new Raycaster();
const here = new Vector3();

/** The nearest place that is seen; null for the ground, and for a face that the cut laid open. */
export function pick(camera: Camera, right: number, up: number, bodies: readonly Body[], planes: readonly Plane[]): Picked | null {
  caster.setFromCamera(new Vector2(right, up), camera);
  const hits = bodies.flatMap((body) => struck(body)).filter(({ hit }) => planes.every((plane) => plane.distanceToPoint(hit.point) >= 0));
  const first = hits.sort((one, other) => one.hit.distance - other.hit.distance)[0];
  if (!first?.hit.face?.normal || first.hit.face.normal.dot(caster.ray.direction) > 0) return null;
  const { a, b, c } = first.hit.face;
  const corners = [a, b, c].map((corner) => ({ corner, at: placed(first.body, corner) }));
  const nearest = corners.reduce((best, one) => (away(one.at, first.hit.point) < away(best.at, first.hit.point) ? one : best));
  return { body: first.body, corner: nearest.corner };
}

function struck(body: Body) {
  const geometry = body.surface.geometry;
  geometry.boundsTree ??= new MeshBVH(geometry, { indirect: true });
  body.surface.raycast = acceleratedRaycast;
  const { side } = body.surface.material;
  body.surface.material.side = DoubleSide;
  const hits = caster.intersectObject(body.surface, false);
  body.surface.material.side = side;
  return hits.map((hit) => ({ body, hit }));
}

/** Where a corner is seen, its solid drawn apart or not. */
export function placed(body: Body, corner: number): Vector3 {
  here.fromArray(body.solid.places, 3 * corner);
  return body.group.localToWorld(here.clone());
}

function away(one: Vector3, other: Vector3): number {
  return one.distanceToSquared(other);
}
