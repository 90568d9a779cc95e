// @ts-check
/** Asking the server. */
import { tell } from "./dom.js";
import { wasStopped } from "./words.js";

export class ApiProblem extends Error {
  /** @param {number} status @param {any} told */
  constructor(status, told) {
    super(told?.message ?? "The server does not answer.");
    this.status = status;
    this.told = told;
  }
}

/**
 * @param {string} method @param {string} path @param {any} [body] an object, sent as JSON; a string and a file are sent
 *   as they are
 * @param {AbortSignal} [signal]
 * @param {string} [subject] what the answer is about: a newer request about it makes this one stale
 * @returns {Promise<any>} JSON, or text where the answer is none
 */
export async function call(method, path, body, signal, subject = "") {
  /** @type {Record<string, string>} */ const headers = subject ? { "X-Subject": subject } : {};
  if (body !== undefined)
    headers["Content-Type"] = body instanceof Blob ? "application/octet-stream" : "application/json";
  let answer;
  try {
    answer = await fetch(path, {
      method,
      signal,
      headers,
      body: body === undefined || body instanceof Blob ? body : typeof body === "string" ? body : JSON.stringify(body),
    });
  } catch (problem) {
    if (wasStopped(problem)) throw problem;
    throw new ApiProblem(0, { message: "The server does not answer." });
  }
  const kind = answer.headers.get("content-type") ?? "";
  const told = kind.includes("json") ? await answer.json() : await answer.text();
  if (answer.status === 401 && told?.sign_in) offerToSignIn();
  if (!answer.ok) throw new ApiProblem(answer.status, told);
  return told;
}

/** Say that somebody has to sign in, and lead there by a touch: what stands on the page is not taken away. */
function offerToSignIn() {
  const to = encodeURIComponent(location.pathname);
  tell("You are signed out.", { label: "Sign in", act: () => location.assign(`/sign-in?to=${to}`) });
}

/** Whether a request was let go because the same page asked something newer. @param {unknown} problem */
export const replaced = (problem) => problem instanceof ApiProblem && problem.told?.replaced === true;

const TRIES = 3,
  AGAIN_MS = 1500;

/**
 * Make something new, once: where no answer came it is asked again under the same key, and the server makes it once.
 * @param {string} path
 * @param {Record<string, any>} asked
 * @param {number} [after_ms]
 */
export async function makeOnce(path, asked, after_ms = AGAIN_MS) {
  const key = freshId();
  for (let tried = 1; ; tried += 1)
    try {
      return await call("POST", path, { ...asked, key });
    } catch (problem) {
      const unheard = problem instanceof ApiProblem ? problem.status === 0 : !wasStopped(problem);
      if (!unheard || tried >= TRIES) throw problem;
      await new Promise((next) => setTimeout(next, after_ms));
    }
}

/**
 * Run long work and report how far it is.
 * @param {Record<string, any>} asked
 * @param {(words: string) => void} report
 * @param {AbortSignal} signal
 * @returns {Promise<string>} its name
 */
export async function longTask(asked, report, signal) {
  const { long_task: name } = await call("POST", "/api/long-tasks", asked);
  for (;;) {
    if (signal.aborted) {
      await call("DELETE", `/api/long-tasks/${name}`);
      throw new DOMException("stopped", "AbortError");
    }
    const told = await call("GET", `/api/long-tasks/${name}`);
    if (told.state === "done") return name;
    if (!["waiting", "working"].includes(told.state))
      throw new ApiProblem(422, { message: told.message || "Stopped." });
    report(told.told[0] ?? "waiting");
    await new Promise((next) => setTimeout(next, 250));
  }
}

/** A name that nobody else makes; works without a secure connection too. */
export function freshId() {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
