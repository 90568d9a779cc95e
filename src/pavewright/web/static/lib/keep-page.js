// @ts-check
/** Keeping a page on the phone for a place without signal. */
import { find } from "./dom.js";

/** Whether this browser keeps pages: only over a secure connection. */
export const secure = window.isSecureContext && "serviceWorker" in navigator;

/** Have the page kept; `data-kept` on the panel says that it is. */
export async function keepPage() {
  if (!secure) return;
  try {
    await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
    await navigator.serviceWorker.ready;
    find("#panel").dataset.kept = "yes";
    await navigator.storage?.persist?.();
  } catch (problem) {
    console.warn(problem);
  }
}
