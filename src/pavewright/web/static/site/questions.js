// @ts-check
/**
 * The walk round the house: what has to have an answer before the quotation. What was not seen becomes an assumption in
 * it.
 */
export const QUESTIONS = [
  "How high is the damp-proof course on every wall that the paving meets, and does it step?",
  "Which doors open onto the paving, and is there a drain slot in a track or sill?",
  "Where are the air bricks?",
  "Which gullies and downpipes are there, and what do they serve?",
  "Which way does the drain run?",
  "Which chamber covers are there, and can they be turned or raised?",
  "Are there footings under the walls and the fence?",
  "How high is the ground next door?",
  "Which trees stand near, and are they protected?",
  "Which cables and pipes cross, above and below?",
  "What did a trial hole show?",
  "Where does water stand after rain?",
  "How narrow is the way in?",
  "Where can a skip or a lorry stand?",
  "Who lives here that needs a level way: wheelchair, pram, bins?",
];
