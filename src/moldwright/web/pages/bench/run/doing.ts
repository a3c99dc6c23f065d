/** What a press does: what it writes, and which screen follows. */

import type { Judged } from "../draw/rule";
import type { Press, Template, Way } from "../told";
import type { NewStep, Run } from "./run";
import { rowFor, told, type Near, type Screen } from "./steps";

type Answers = Readonly<Record<string, string>>;

/** The templates with what was typed in their fields. */
export function filled(press: Press, answers: Answers): readonly Template[] {
  return press.events.map((event) => ({ ...event, body: { ...event.body, ...answers } }));
}

/** Of the lot that somebody took, where the part may be of it. */
function ofLot(run: Run, events: readonly Template[]): readonly Template[] {
  const may = run.screen.view.lots.filter((each) => !each.grave).map((each) => each.id);
  const lot = run.chosen.findLast((id) => may.includes(id));
  return lot ? events.map((event) => ("lot" in event.body ? { ...event, body: { ...event.body, lot } } : event)) : events;
}

/** As it is meant: the main act goes on, what is beside stays, what turns the work goes on by what was told of it. */
export async function doPress(run: Run, press: Press, answers: Answers): Promise<void> {
  const { screen } = run;
  const told = [press.label, press.small].filter(Boolean).join(", ");
  if (press.id === "pass") return passOver(run, told);
  const own = screen.view.presses.includes(press);
  if (own && press.id === "right" && screen.short_g !== null) return rightBehindShort(run, screen.short_g, told);
  const instead = own && screen.some ? linesThrough(screen.some.ids) : [];
  await run.write({ events: [...instead, ...ofLot(run, filled(press, answers))], words: told }, follows(screen, press, own, answers));
}

function follows(screen: Screen, press: Press, own: boolean, answers: Answers): NewStep {
  if (press.turn) return press.asks.some((ask) => ask.decides && answers[ask.field]) ? { did: "beyond" } : { did: "turn", turn: press.turn };
  if (screen.then && press.id === screen.then.press.id) return { did: "then" };
  return { did: own ? "ahead" : "stay" };
}

async function passOver(run: Run, words: string): Promise<void> {
  const { box } = run.screen.view;
  if (box) run.skip(box.step, box.turn, box.key);
  await run.write({ events: [], words }, { did: "ahead" });
}

/** Some of the part is in: that the scale shows the total now is written as a reading. */
async function rightBehindShort(run: Run, before_g: number, words: string): Promise<void> {
  const { figure, presses } = run.screen.view;
  const typed = presses.find((press) => press.id === "short");
  const field = typed?.asks[0]?.field;
  if (!typed || !field || !figure) return;
  await run.write({ events: filled(typed, { [field]: figure.text }).map((event) => behind(event, before_g)), words }, { did: "ahead" });
}

function behind(event: Template, before_g: number | null): Template {
  return before_g === null || !("before_g" in event.body) ? event : { ...event, body: { ...event.body, before_g } };
}

/** A reading: short stays, right goes on, over is put right; how, where it was not told here, the server tells. */
export async function doReading(run: Run, press: Press, typed: string, value: number, as: Judged): Promise<void> {
  const { screen } = run;
  const field = press.asks[0]?.field ?? "";
  const reads_g = value * (screen.view.figure?.unit_is ?? 1);
  const instead = screen.some ? linesThrough(screen.some.ids) : [];
  const events = [...instead, ...filled(press, { [field]: typed }).map((event) => behind(event, screen.short_g))];
  const words = `${press.label} ${typed}`;
  if (as === "right") return run.write({ events, words }, { did: "ahead" });
  const scale = press.asks[0]?.what === "mass";
  if (as === "short") return run.write({ events, words }, scale ? { did: "short", reads_g } : someIn(press, typed));
  const row = rowFor(screen.over, reads_g);
  if (row && told(row, reads_g)) return run.write({ events, words }, { did: "over", put_right: row.put_right });
  await run.write({ events, words }, row && scale ? { did: "near", row } : { did: "beyond" });
}

function linesThrough(ids: readonly string[]): readonly Template[] {
  return ids.map((id) => ({ kind: "undone", body: { event: id, why: "" } }));
}

/** Poured on, to a reading of which it was told what to do: it takes the place of the one before. */
export async function doPourOn(run: Run, { row, ids }: Near): Promise<void> {
  const { view, short_g } = run.screen;
  const press = view.presses.find((each) => each.id === "over");
  const field = press?.asks[0]?.field;
  if (!press || !field) return;
  const events = [...linesThrough(ids), ...filled(press, { [field]: row.reads }).map((event) => behind(event, short_g))];
  await run.write({ events, words: `${press.label} ${row.reads}` }, { did: "over", put_right: row.put_right });
}

/** A syringe or a mark: the same figure stands, as what is to be in of all; what is written next takes its place. */
function someIn(press: Press, typed: string): NewStep {
  return { did: "some", text: `${typed} ${press.asks[0]?.unit ?? ""}` };
}

/** A way to put a cup right is chosen. */
export async function doWay(run: Run, way: Way): Promise<void> {
  await run.write({ events: way.press.events, words: `${way.title} ${way.press.label}` }, { did: "way", way });
}
