// @ts-check
/** The stages as a row of buttons: one stop for Tab, arrow keys go from one to the next. */
import { el, say } from "../lib/dom.js";
import { hidden } from "../lib/hidden.js";
import { oneStop, roving } from "./tools.js";

/** @typedef {import("../lib/lists.js").Stage} Stage */

export class Rail {
  /** @param {HTMLElement} node @param {Stage[]} stages @param {(stage: any, step?: "new"|"same") => void} go */
  constructor(node, stages, go) {
    this.node = node;
    this.stages = stages;
    // made once: what a button counts changes, the hand on it stays
    this.buttons = stages.map((one) =>
      el(
        "button",
        { type: "button", on: { click: () => go(one) } },
        el("span", { text: one.name }),
        el("span", { class: "count" }),
      ),
    );
    this.go = go;
    roving(node, () => this.buttons.filter((one) => !one.hidden));
    /** Settled once it is known which stages are for whoever looks: none is opened before. */
    this.known = this.#hide();
  }

  /** Hide the stages that are not for whoever looks, as the server tells. */
  async #hide() {
    const { stages } = await hidden();
    this.stages.forEach((one, index) => {
      const button = this.buttons[index];
      button.hidden = stages.includes(one.key);
      if (button.parentElement) button.parentElement.hidden = button.hidden;
    });
  }

  /** @param {Stage} now @param {Finding[]} findings @param {(finding: Finding) => Stage} stageOf */
  draw(now, findings, stageOf) {
    // whatever led there, an address, Back or a finding: a stage that is hidden is not opened
    if (this.buttons[this.stages.indexOf(now)].hidden) return this.go(this.stages[0], "same");
    // there is nothing to open before the job is there
    if (!this.node.childElementCount)
      this.node.append(el("ol", {}, ...this.buttons.map((one) => el("li", { hidden: one.hidden }, one))));
    this.stages.forEach((one, index) => {
      const mine = findings.filter((finding) => stageOf(finding) === one),
        stops = mine.filter((finding) => finding.severity === "stop").length,
        checks = mine.filter((finding) => finding.severity === "check").length,
        button = this.buttons[index],
        count = button.querySelector(".count");
      if (button.firstElementChild) say(button.firstElementChild, one.name); // the job says in which words
      if (count) {
        say(count, stops ? `■${stops}` : checks ? `▲${checks}` : "");
        count.setAttribute("title", stops ? `${stops} stop` : checks ? `${checks} to check` : "");
      }
      if (one === now) button.setAttribute("aria-current", "step");
      else button.removeAttribute("aria-current");
    });
    const button = this.buttons[this.stages.indexOf(now)];
    oneStop(this.buttons, button);
    const [box, own] = [this.node.getBoundingClientRect(), button.getBoundingClientRect()];
    if (own.left < box.left || own.right > box.right) this.node.scrollLeft += own.left - box.left - 40;
    if (own.top < box.top || own.bottom > box.bottom) this.node.scrollTop += own.top - box.top - 40;
  }
}
