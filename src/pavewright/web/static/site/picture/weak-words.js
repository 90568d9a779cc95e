// @ts-check
/** What is said of a photo, or a place in it, that says nothing or less than it seems to. */

const WORDS = /** @type {Record<string, string>} */ ({
  few_marks: "Mark four known places or more, well spread; a fifth checks them.",
  in_line: "The marks are nearly in line: mark known places that stand out to the side.",
  crosswise: "No plane looks like this: two marks have each other's names, or a known place is wrong.",
  mirrored: "The marks run the wrong way round: two of them have each other's names.",
  lens_folds: "The picture is bent too much there: use the main camera, not the wide one.",
  no_check: "Nothing checks these marks: mark a fifth known place.",
  marks_disagree: "The marks contradict each other: look at each again.",
  one_corner: "The marks fill a small part of the picture: go nearer, or mark places farther apart.",
  picture_size: "The size of the picture is not known.",
  past_horizon: "That lies past the horizon.",
  beyond_marks: "Beyond the marks: less sure.",
  far_beyond: "Far beyond the marks: mark known places round it.",
  low_camera: "The camera was low: what stands off the plane is shifted far. Hold it up.",
  grazing: "Seen at too flat an angle: take it from nearer or higher.",
  unsure: "Too unsure to be of use.",
});

/** @param {string} key */
export const weakWords = (key) => WORDS[key] ?? key;
