// @ts-check
/** Devices that may reach the jobs over the network: pair one by a code, see which there are, withdraw one. */
import { ask, el, find, say, tell } from "../lib/dom.js";
import { listenForKeys } from "../lib/keys.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { tag } from "../lib/writing.js";

/** @typedef {{id: string, name: string, paired: string, seen: string}} Device */

const main = find("#main");

/** @param {string} at */
const day = (at) => new Date(at).toLocaleString(tag(), { dateStyle: "medium", timeStyle: "short" });

/** What a plain connection cannot do, or how a secure one is made. @param {any} told */
function connection(told) {
  return told.secure
    ? el("p", { text: "The connection is secure: a phone keeps the pages and works without signal." })
    : el(
        "div",
        { class: "finding check" },
        el("p", {}, el("span", { class: "word", text: "▲ NOT SECURE" })),
        el("p", {
          text:
            "Readings are kept on the phone until they are sent, but the page itself is not: leave it " +
            "open, or take the site sheet along. Anybody in this network can listen. Start with --certificate to " +
            "change both; how a certificate is made stands in docs/phone.md.",
        }),
      );
}

/** @param {any} told */
function pairing(told) {
  if (!told.on_network)
    return el(
      "p",
      {},
      "Only this machine reaches the jobs now. To let phones in, start: ",
      el("code", { class: "command", text: "pavewright serve --on-network" }),
    );
  if (!told.here) return el("p", { text: "Devices are paired and withdrawn on the machine where pavewright runs." });
  if (!told.addresses.length) return el("p", { text: "This machine is in no network: join one, then come back." });
  return el(
    "div",
    {},
    connection(told),
    el(
      "p",
      { class: "row" },
      el("button", { type: "button", class: "main", text: "Pair a phone", on: { click: pair } }),
    ),
  );
}

async function pair() {
  const made = await call("POST", "/api/devices/pairing", {}).catch((problem) => tell(messageOf(problem)));
  if (!made) return;
  const shown = el("img", { alt: "", width: 300, height: 300, class: "pair-code" }),
    address = el("p", { class: "pair-address" });
  const show = (/** @type {number} */ number) => {
    shown.src = made.ways[number].code;
    shown.alt = `Code for ${made.ways[number].address}`;
    say(address, made.ways[number].address);
  };
  show(0);
  const others = made.ways.length > 1 ? el("div", { class: "row" }) : null;
  made.ways.forEach((/** @type {any} */ way, /** @type {number} */ number) =>
    others?.append(
      el("button", { type: "button", text: new URL(way.address).hostname, on: { click: () => show(number) } }),
    ),
  );
  await ask(
    "Scan this with the phone",
    [
      shown,
      el("p", {}, "No camera? Open the address, or type the word ", el("b", { text: made.word })),
      address,
      ...(others
        ? [el("p", { text: "This machine has several addresses. Try another where one does not open:" }), others]
        : []),
      el("p", { class: "quiet", text: "It pairs one device, within ten minutes." }),
    ],
    [{ label: "Done", value: "done", main: true }],
  );
  await load();
}

/** @param {Device} device */
async function withdraw(device) {
  const way = await ask(
    `Withdraw ${device.name}?`,
    [el("p", { text: "It opens nothing here any more. Readings that it has not sent stay on it." })],
    [
      { label: "Keep it", value: "keep" },
      { label: "Withdraw", value: "withdraw", main: true },
    ],
  );
  if (way !== "withdraw") return;
  await call("DELETE", `/api/devices/${device.id}`).catch((problem) => tell(messageOf(problem)));
  await load();
}

/** @param {Device[]} devices @param {boolean} here */
function list(devices, here) {
  if (!devices.length) return el("p", { class: "quiet", text: "No device is paired." });
  return el(
    "ul",
    { class: "device-list" },
    ...devices.map((device) =>
      el(
        "li",
        { class: "sheet row" },
        el(
          "span",
          { class: "grow" },
          el("b", { text: device.name }),
          el("br"),
          `paired ${day(device.paired)}, last seen ${day(device.seen)}`,
        ),
        here ? el("button", { type: "button", text: "Withdraw", on: { click: () => withdraw(device) } }) : null,
      ),
    ),
  );
}

async function load() {
  try {
    const told = await call("GET", "/api/devices");
    main.replaceChildren(
      el("h2", { text: "On the network" }),
      pairing(told),
      el("h2", { text: "Paired devices" }),
      list(told.devices, told.here),
    );
  } catch (problem) {
    main.replaceChildren(
      el("p", { role: "alert", text: messageOf(problem) }),
      el("button", { type: "button", text: "Try again", on: { click: load } }),
    );
  }
}

listenForKeys([]);
await load();
