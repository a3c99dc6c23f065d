/** A place where files are dropped or chosen; each is sent as it is, with its progress, and can be stopped. */

import { token } from "../../parts/send";

const MB = 1_000_000;

/** What the page says of files on their way; the words come from the desk. */
function word(page: HTMLElement, name: string, values: Record<string, string> = {}): string {
  const text = page.querySelector<HTMLTemplateElement>('template[data-bar="words"]')!.content.querySelector(
    `[data-word="${name}"]`,
  )!.textContent!;
  return text.replaceAll(/\{(\w+)\}/g, (_, key: string) => values[key] ?? "");
}

/** One place of the page: `data-drop` is what it takes. */
export class Drop {
  readonly #what: string;
  readonly #line: HTMLElement;

  constructor(
    private readonly page: HTMLElement,
    private readonly place: HTMLElement,
    private readonly draft: () => Promise<string>,
  ) {
    this.#what = place.dataset["drop"]!;
    this.#line = place.parentElement!.querySelector<HTMLElement>(".sending")!;
    const input = place.querySelector<HTMLInputElement>("input[type='file']")!;
    input.addEventListener("change", () => {
      const files = [...(input.files ?? [])];
      input.value = "";
      void this.#take(files);
    });
    for (const name of ["dragenter", "dragover"]) place.addEventListener(name, (event) => this.#over(event));
    place.addEventListener("dragleave", () => place.classList.remove("over"));
    place.addEventListener("drop", (event) => this.#dropped(event));
  }

  #over(event: Event): void {
    event.preventDefault();
    this.place.classList.add("over");
  }

  #dropped(event: DragEvent): void {
    event.preventDefault();
    this.place.classList.remove("over");
    void this.#take([...(event.dataTransfer?.files ?? [])]);
  }

  async #take(files: File[]): Promise<void> {
    const wanted = this.#what === "scan" ? files.slice(0, 1) : files;
    if (!wanted.length) return;
    const id = await this.draft();
    this.#line.replaceChildren();
    let arrived = 0;
    for (const [at, file] of wanted.entries()) {
      const sent = await this.#send(id, file, at, wanted.length);
      if (sent === null) break;
      if (sent) arrived += 1;
    }
    if (!arrived) return;
    this.page.dispatchEvent(new CustomEvent<string>("arrived", { detail: this.#what }));
  }

  /** True where it arrived, false where it was refused, null where it was stopped. */
  #send(id: string, file: File, at: number, of: number): Promise<boolean | null> {
    const most = Number(this.page.dataset["mostMb"]);
    const size = (file.size / MB).toFixed(1);
    if (this.#what === "scan" && file.size > most * MB) {
      this.#said(word(this.page, "large", { name: file.name, size, most: String(most) }), true);
      return Promise.resolve(false);
    }
    return new Promise((done) => {
      const call = new XMLHttpRequest();
      const bar = this.#bar(() => call.abort());
      call.open("PUT", `/api/take-in/${id}/${this.#what}?name=${encodeURIComponent(file.name)}`);
      call.setRequestHeader("X-Token", token());
      call.setRequestHeader("Accept", "application/json");
      call.setRequestHeader("Content-Type", "application/octet-stream");
      const tell = (sent: number): void => {
        bar.value = (at + (file.size ? sent / file.size : 1)) / of;
        const words = { name: file.name, done: (sent / MB).toFixed(1), size, at: String(at + 1), of: String(of) };
        const told = word(this.page, of > 1 ? "sending-many" : "sending", words);
        bar.setAttribute("aria-label", told);
        this.#line.querySelector(".on-its-way")!.textContent = told;
      };
      tell(0);
      call.upload.addEventListener("progress", (event) => tell(event.loaded));
      call.addEventListener("load", () => done(this.#answered(call)));
      call.addEventListener("error", () => done(this.#answered(call)));
      call.addEventListener("abort", () => {
        this.#said(word(this.page, "stopped"), false);
        done(null);
      });
      call.send(file);
    });
  }

  #answered(call: XMLHttpRequest): boolean {
    const told = read(call.responseText);
    this.#line.querySelectorAll(".under-way").forEach((each) => each.remove());
    if (call.status === 200) {
      this.place.querySelector("[data-there]")!.textContent = told.here;
      return true;
    }
    const said = told?.said ? `${told.said.found} ${told.error.remedy}` : String(call.status);
    this.#said(said, true);
    return false;
  }

  #bar(stop: () => void): HTMLProgressElement {
    const way = document.createElement("div");
    way.className = "under-way";
    const line = document.createElement("p");
    line.className = "on-its-way";
    const bar = document.createElement("progress");
    bar.max = 1;
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = word(this.page, "stop");
    button.addEventListener("click", stop);
    way.append(line, bar, button);
    this.#line.querySelectorAll(".under-way").forEach((each) => each.remove());
    this.#line.append(way);
    return bar;
  }

  #said(text: string, wrong: boolean): void {
    this.#line.querySelectorAll(".under-way").forEach((each) => each.remove());
    const line = document.createElement("p");
    line.className = wrong ? "error" : "small";
    line.setAttribute("role", wrong ? "alert" : "status");
    line.textContent = text;
    this.#line.append(line);
  }
}

function read(text: string): any {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
