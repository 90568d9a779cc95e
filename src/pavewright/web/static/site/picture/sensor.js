// @ts-check
/** The slope that a phone's own sensor shows, read for a moment while it lies still. */

const READ_MS = 2000,
  WAIT_MS = 1500;

/** What a reading came to: a slope with its scatter, or why there is none. */
/** @typedef {{slope_deg: number, scatter_deg: number}|{none: "secure"|"sensor"|"refused"}} Read */

/** Ask for the sensor where a browser wants to be asked. @returns {Promise<"secure"|"sensor"|"refused"|null>} */
async function refusedFor() {
  if (!window.isSecureContext) return "secure";
  const kind = /** @type {any} */ (window).DeviceOrientationEvent;
  if (!kind) return "sensor";
  if (typeof kind.requestPermission !== "function") return null;
  try {
    return (await kind.requestPermission()) === "granted" ? null : "refused";
  } catch {
    return "refused";
  }
}

/**
 * Read the slope along the phone: more than zero where its top end is higher.
 * @returns {Promise<Read>}
 */
export async function readSlope() {
  const none = await refusedFor();
  if (none) return { none };
  /** @type {number[]} */ const taken = [];
  return new Promise((done) => {
    const take = (/** @type {DeviceOrientationEvent} */ event) => {
      if (typeof event.beta === "number") taken.push(event.beta);
    };
    const end = () => {
      window.removeEventListener("deviceorientation", take);
      if (!taken.length) return done({ none: "sensor" });
      const mean = taken.reduce((sum, each) => sum + each, 0) / taken.length;
      const squares = taken.reduce((sum, each) => sum + (each - mean) ** 2, 0);
      done({ slope_deg: mean, scatter_deg: taken.length > 1 ? Math.sqrt(squares / (taken.length - 1)) : 0 });
    };
    window.addEventListener("deviceorientation", take);
    setTimeout(() => (taken.length ? setTimeout(end, READ_MS - WAIT_MS) : end()), WAIT_MS);
  });
}
