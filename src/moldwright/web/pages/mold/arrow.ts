/** An arrow over a piece of the shell: the way it draws off. */

import { ConeGeometry, CylinderGeometry, Group, Mesh, MeshBasicMaterial, type Scene, Vector3 } from "three";
import type { Body } from "./body";
import type { Shown } from "./view";

const UP = new Vector3(0, 1, 0);

export class Arrow {
  private readonly group = new Group();
  private readonly material = new MeshBasicMaterial();
  private readonly way: Vector3;

  constructor(
    scene: Scene,
    readonly body: Body,
    private readonly across: number,
  ) {
    this.way = new Vector3().fromArray(body.solid.draw ?? [0, 0, 1]);
    const long = 0.16 * across;
    const shaft = new Mesh(new CylinderGeometry(0.004 * across, 0.004 * across, long), this.material);
    const head = new Mesh(new ConeGeometry(0.014 * across, 0.04 * across, 16), this.material);
    shaft.position.setY(long / 2);
    head.position.setY(long);
    this.group.add(shaft, head);
    this.group.quaternion.setFromUnitVectors(UP, this.way);
    scene.add(this.group);
  }

  /** Where its point is. */
  get point(): Vector3 {
    return this.group.position.clone().addScaledVector(this.way, 0.18 * this.across);
  }

  show(shown: Shown): void {
    this.group.visible = !shown.inside && shown.upTo === "shell" && shown.apart_mm > 0;
    const start = this.body.top.clone().addScaledVector(this.way, shown.apart_mm);
    this.group.position.copy(start.setZ(start.z + 0.03 * this.across));
    this.group.updateMatrixWorld(true);
  }

  color(color: string): void {
    this.material.color.set(color);
  }
}
