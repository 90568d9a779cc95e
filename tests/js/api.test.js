import assert from "node:assert/strict";
import { test } from "node:test";
import { ApiProblem, call, makeOnce, replaced } from "../../src/pavewright/web/static/lib/api.js";

/** @type {any[]} */ const asked = [];
/** @type {(string|number)[]} */ let answers = [];
globalThis.fetch = /** @type {any} */ (
  async (/** @type {string} */ path, /** @type {any} */ wishes) => {
    asked.push({ path, headers: wishes.headers, body: wishes.body && JSON.parse(wishes.body) });
    const next = answers.shift() ?? 200;
    if (next === "lost") throw new TypeError("the answer is lost");
    const told = next === 409 ? { message: "A newer change is worked out.", replaced: true } : { id: "j", rev: 1 };
    return {
      ok: Number(next) < 400,
      status: next,
      headers: { get: () => "application/json" },
      json: async () => told,
      text: async () => "",
    };
  }
);

test("a request says what it is about, so that a newer one makes it stale", async () => {
  await call("POST", "/api/plan", "{}", undefined, "job-page");
  assert.equal(asked.at(-1).headers["X-Subject"], "job-page");
  await call("GET", "/api/jobs");
  assert.deepEqual(asked.at(-1).headers, {});
  answers = [409];
  await assert.rejects(call("POST", "/api/plan", "{}", undefined, "job-page"), (problem) => replaced(problem));
  assert.ok(!replaced(new ApiProblem(409, { message: "changed elsewhere" })));
});

test("what is made new is asked again under the same key where no answer came, and not where it was refused", async () => {
  asked.length = 0;
  answers = ["lost", "lost"];
  assert.equal((await makeOnce("/api/jobs", { title: "Once" }, 1)).id, "j");
  assert.equal(asked.length, 3);
  assert.equal(new Set(asked.map((one) => one.body.key)).size, 1);
  asked.length = 0;
  answers = [422];
  await assert.rejects(makeOnce("/api/jobs", { title: "Once" }, 1));
  assert.equal(asked.length, 1);
});
