// @ts-check
/** Words for roles, rights, and what stands in the list of who did what. */

/** @type {Record<string, string>} */
export const ROLE_WORDS = { owner: "Owner", office: "Office", crew: "Crew", auditor: "Auditor" };

/** @type {Record<string, string>} */
export const ROLE_HINTS = {
  owner: "everything, and who comes in",
  office: "jobs, prices, quotations",
  crew: "the work, without money",
  auditor: "reads, changes nothing",
};

/** @type {Record<string, string>} */
export const GRANT_WORDS = {
  see_money: "See money",
  calendar: "Change the calendar",
  devices: "Pair phones",
};

/** @type {Record<string, string>} */
export const DONE_WORDS = {
  signed_in: "Signed in",
  "signed out": "Signed out",
  "sign-in failed": "Tried to sign in",
  invited: "Made an invitation",
  "invitation withdrawn": "Withdrew an invitation",
  joined: "Joined the firm",
  "role changed": "Changed a role",
  "membership ended": "Ended a membership",
  "link for a new password": "Made a link for a new password",
  "password changed": "Chose a new password",
  "codes asked from now on": "Set up codes of a phone",
  "codes no more": "Turned codes off",
  "passkey added": "Added a passkey",
  "passkey deleted": "Deleted a passkey",
  "device signed out": "Signed a device out",
  "other devices signed out": "Signed all other devices out",
  "job removed": "Removed a job for good",
  "job deleted": "Deleted a job, or brought it back",
  "job taken away": "Took a job away as a file",
  "book taken away": "Took the firm's book away as a file",
  "record taken away": "Took a record away as a file",
  "question asked": "A customer asked",
  "quotation accepted": "A customer accepted",
  "person taken away": "Took away what is kept of a person",
  "person erased": "Erased a person",
  "firm taken away": "Took all of the firm away as a file",
  backup: "Took a backup away",
  restored: "Brought a backup back",
  "file refused by the scan": "Sent a file that the scan did not let through",
};

/** What was done, in words. @param {string} code */
export const doneWords = (code) => DONE_WORDS[code] ?? code;
