// @ts-check
/** People of the firm: the first owner, invitations by link, what each may do, and links for a new password. */
import { ask, el, find, tell } from "../lib/dom.js";
import { call } from "../lib/api.js";
import { messageOf } from "../lib/words.js";
import { tag } from "../lib/writing.js";
import { GRANT_WORDS, ROLE_WORDS, ROLE_HINTS } from "./people-words.js";

/**
 * @typedef {{id: string, name: string, sign_in: string, role: string, grants: string[], crew_name: string | null,
 *   you: boolean}} Person
 */

const main = find("#main");

/** @param {string} at */
const day = (at) => new Date(at).toLocaleDateString(tag(), { dateStyle: "medium" });

/** @param {() => Promise<any>} act */
const doing = (act) => async () => {
  try {
    await act();
    await show();
  } catch (problem) {
    tell(messageOf(problem));
  }
};

/** @param {string} text @param {() => Promise<any>} act @param {string} [kind] */
const button = (text, act, kind = "") => el("button", { type: "button", class: kind, text, on: { click: doing(act) } });

/** A field with its name. @param {string} name @param {HTMLElement} input @param {string} [hint] */
const field = (name, input, hint) =>
  el(
    "label",
    { class: "field" },
    el("span", { class: "name", text: name }),
    input,
    hint && el("span", { class: "hint", text: hint }),
  );

/** @param {string[]} roles @param {string} role */
const roleChoice = (roles, role) =>
  el(
    "select",
    {},
    ...roles.map((each) =>
      el("option", { value: each, selected: each === role, text: `${ROLE_WORDS[each]} – ${ROLE_HINTS[each]}` }),
    ),
  );

/** Ticks for what a crew member may do beyond the role. @param {string[]} grants @param {string[]} now */
function grantTicks(grants, now) {
  const ticks = grants.map((each) => {
    const box = el("input", { type: "checkbox", value: each, checked: now.includes(each) });
    return {
      box,
      row: el("label", { class: "field tick" }, box, el("span", { class: "name", text: GRANT_WORDS[each] })),
    };
  });
  const holder = el("div", { role: "group", "aria-label": "May also" }, ...ticks.map((each) => each.row));
  return { holder, chosen: () => ticks.filter((each) => each.box.checked).map((each) => each.box.value) };
}

/** Hand a link over: nobody can read it again. @param {string} title @param {string} link @param {string} words */
async function handOver(title, link, words) {
  const address = new URL(link, location.href).href,
    shown = el("input", { value: address, readonly: true, "aria-label": "Link", class: "link" });
  const copy = el("button", {
    type: "button",
    class: "main",
    text: "Copy the link",
    on: {
      click: async () => {
        shown.select();
        await navigator.clipboard?.writeText(address).catch(() => undefined);
        tell("Copied. Send it the way you usually reach the person.");
      },
    },
  });
  await ask(
    title,
    [el("p", { text: words }), el("p", { class: "field" }, shown), el("p", { class: "row" }, copy)],
    [{ label: "Done", value: "done" }],
  );
}

const programs = () => el("a", { class: "button", href: "/programs", text: "Other programs" });

/** @param {any} told */
function firstOwner(told) {
  const name = el("input", { required: true, maxlength: 60, autocomplete: "name" });
  const enter = doing(async () => {
    const { link } = await call("POST", "/api/people/first", { name: name.value });
    location.assign(link);
  });
  return [
    el("p", { text: "Nobody signs in yet: whoever sits at this machine sees every job." }),
    el("p", { text: "Enter the first owner. From then on everybody signs in, on this machine too." }),
    told.here
      ? el(
          "form",
          {
            class: "search-row",
            on: {
              submit: (/** @type {Event} */ event) => {
                event.preventDefault();
                void enter();
              },
            },
          },
          field("Name of the first owner", name),
          el("button", { class: "main", text: "Enter" }),
        )
      : el("p", { text: "This is done on the machine where pavewright runs." }),
    el("p", { class: "row" }, programs()),
  ];
}

/** @param {any} told */
async function invite(told) {
  const name = el("input", { maxlength: 60 }),
    role = roleChoice(told.roles, "crew"),
    ticks = grantTicks(told.grants, []);
  const follow = () => (ticks.holder.hidden = role.value !== "crew");
  role.addEventListener("change", follow);
  follow();
  const chosen = await ask(
    "Invite somebody",
    [field("Name", name), field("Role", role), ticks.holder],
    [
      { label: "Make the link", value: "make", main: true },
      { label: "Cancel", value: "cancel" },
    ],
  );
  if (chosen !== "make") return;
  const { link } = await call("POST", "/api/people/invitations", {
    name: name.value,
    role: role.value,
    grants: role.value === "crew" ? ticks.chosen() : [],
  });
  await handOver(
    "Hand this link over",
    link,
    "It lets one person in, once, within seven days. Nobody can show it again.",
  );
}

/** @param {Person} person @param {any} told */
async function change(person, told) {
  const role = roleChoice(told.roles, person.role),
    ticks = grantTicks(told.grants, person.grants),
    crewName = el("input", { maxlength: 60, value: person.crew_name ?? "" });
  const follow = () => (ticks.holder.hidden = role.value !== "crew");
  role.addEventListener("change", follow);
  follow();
  const chosen = await ask(
    person.name,
    [field("Role", role), ticks.holder, field("Name in the firm's book", crewName, "as the crew stands there")],
    [
      { label: "Keep", value: "keep", main: true },
      { label: "Cancel", value: "cancel" },
    ],
  );
  if (chosen === "keep")
    await call("PUT", `/api/people/${person.id}`, {
      role: role.value,
      grants: role.value === "crew" ? ticks.chosen() : [],
      crew_name: crewName.value,
    });
}

/** @param {Person} person */
async function end(person) {
  const words = `${person.name} is signed out everywhere and sees nothing of the firm any more. What was done stays.`;
  const chosen = await ask(
    `End the membership of ${person.name}?`,
    [el("p", { text: words })],
    [
      { label: "End it", value: "end" },
      { label: "Cancel", value: "cancel", main: true },
    ],
  );
  if (chosen === "end") await call("DELETE", `/api/people/${person.id}`);
}

/** Erase somebody for good: the name is typed again before. @param {Person} person */
async function erase(person) {
  const called = person.name || person.sign_in,
    typed = el("input", { autocomplete: "off", maxlength: 200 });
  const chosen = await ask(
    `Erase ${called} for good?`,
    [
      el("p", { text: "Name, sign-in, password, passkeys, devices and tokens go. Nobody can bring them back." }),
      el("p", { text: "What was done stays under a number: revisions, records and who did what still verify." }),
      el("p", { text: "A name that somebody wrote into a job or the firm's book stays there until you change it." }),
      field(`Type ${called}`, typed),
    ],
    [
      { label: "Erase", value: "erase" },
      { label: "Cancel", value: "cancel", main: true },
    ],
  );
  if (chosen !== "erase") return;
  const { left } = await call("POST", `/api/people/${person.id}/erased`, { typed: typed.value });
  const rows = left.map((/** @type {any} */ one) => el("li", { text: `${one.table}: ${one.rows}` }));
  await ask(
    "Erased",
    rows.length
      ? [el("p", { text: "The name still stands in so many rows that the firm wrote itself:" }), el("ul", {}, ...rows)]
      : [el("p", { text: "The name was found nowhere else here. Backups made before still hold it." })],
    [{ label: "Done", value: "done" }],
  );
}

/** @param {Person} person */
async function newPassword(person) {
  const { link } = await call("POST", `/api/people/${person.id}/new-password`, {});
  await handOver("Hand this link over", link, `${person.name} chooses a new password with it, once, within a day.`);
}

/** What is done once in years, out of the way of what is done often. @param {Person} person */
const seldom = (person) =>
  el(
    "details",
    { class: "seldom" },
    el("summary", { text: "More", "aria-label": `More of ${person.name}` }),
    el(
      "p",
      { class: "row" },
      el("a", {
        class: "button",
        href: `/api/people/${person.id}/copy.zip`,
        download: "",
        text: "What is kept",
        "aria-label": `What is kept of ${person.name}, as a file`,
      }),
      button("End membership", () => end(person)),
      button("Erase", () => erase(person)),
    ),
  );

/** @param {Person} person @param {any} told */
function personCard(person, told) {
  const more = person.grants.map((each) => GRANT_WORDS[each]).join(", ");
  return el(
    "li",
    { class: "sheet" },
    el("h2", { text: person.you ? `${person.name} (you)` : person.name }),
    el("p", { text: [ROLE_WORDS[person.role], more].filter(Boolean).join(" · ") }),
    el("p", { class: "quiet", text: `Signs in as ${person.sign_in}` }),
    el(
      "p",
      { class: "row" },
      button("Change role", () => change(person, told)),
      button("New password", () => newPassword(person)),
    ),
    seldom(person),
  );
}

/** @param {any} told */
function members(told) {
  return [
    el(
      "p",
      { class: "row" },
      button("Invite somebody", () => invite(told), "main"),
      el("a", { class: "button", href: "/audit", text: "Who did what" }),
      el("a", { class: "button", href: "/api/firm/copy.zip", download: "", text: "All of the firm as a file" }),
      programs(),
    ),
    el("ul", { class: "jobs" }, ...told.people.map((/** @type {Person} */ each) => personCard(each, told))),
    told.invitations.length ? el("h2", { text: "Invitations that are open" }) : null,
    el(
      "ul",
      { class: "jobs" },
      ...told.invitations.map((/** @type {any} */ each) =>
        el(
          "li",
          { class: "sheet" },
          el("h3", { text: each.name || "Somebody" }),
          el("p", { text: `${ROLE_WORDS[each.role]} · until ${day(each.expires)}` }),
          button("Withdraw", () => call("DELETE", `/api/people/invitations/${each.id}`)),
        ),
      ),
    ),
  ];
}

async function show() {
  const told = await call("GET", "/api/people");
  const parts = told.anybody ? members(told) : firstOwner(told);
  main.replaceChildren(...parts.filter((part) => part !== null));
}

show().catch((problem) => main.replaceChildren(el("p", { role: "alert", text: messageOf(problem) })));
