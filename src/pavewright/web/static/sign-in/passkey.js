// @ts-check
/** Passkeys as the browser makes and uses them, to and from JSON. */

/** Whether this place can use passkeys: a secure connection or this machine, called by a name and not by a number. */
export const withPasskeys = () =>
  typeof PublicKeyCredential !== "undefined" && isSecureContext && !isNumber(location.hostname);

/** Whether a host is called by a number. @param {string} host */
export const isNumber = (host) => /^[\d.]+$/.test(host) || host.includes(":");

/** @param {string} text base64url @returns {Uint8Array<ArrayBuffer>} */
export const bytesOf = (text) =>
  Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (sign) => sign.charCodeAt(0));

/** @param {ArrayBuffer | null | undefined} bytes @returns {string} base64url */
export const textOf = (bytes) =>
  btoa(String.fromCharCode(...new Uint8Array(bytes ?? new ArrayBuffer(0))))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replaceAll("=", "");

/** @param {any} asked @returns {Promise<any>} */
export async function makePasskey(asked) {
  const publicKey = {
    ...asked,
    challenge: bytesOf(asked.challenge),
    user: { ...asked.user, id: bytesOf(asked.user.id) },
    excludeCredentials: (asked.excludeCredentials ?? []).map(readable),
  };
  const made = /** @type {any} */ (await navigator.credentials.create({ publicKey }));
  return {
    ...headOf(made),
    response: {
      clientDataJSON: textOf(made.response.clientDataJSON),
      attestationObject: textOf(made.response.attestationObject),
      transports: made.response.getTransports?.() ?? [],
    },
  };
}

/** @param {any} asked @returns {Promise<any>} */
export async function usePasskey(asked) {
  const publicKey = {
    ...asked,
    challenge: bytesOf(asked.challenge),
    allowCredentials: (asked.allowCredentials ?? []).map(readable),
  };
  const used = /** @type {any} */ (await navigator.credentials.get({ publicKey }));
  return {
    ...headOf(used),
    response: {
      clientDataJSON: textOf(used.response.clientDataJSON),
      authenticatorData: textOf(used.response.authenticatorData),
      signature: textOf(used.response.signature),
      userHandle: used.response.userHandle ? textOf(used.response.userHandle) : null,
    },
  };
}

/** @param {any} each */
const readable = (each) => ({ ...each, id: bytesOf(each.id) });

/** @param {any} credential */
const headOf = (credential) => ({
  id: credential.id,
  rawId: textOf(credential.rawId),
  type: credential.type,
  clientExtensionResults: credential.getClientExtensionResults(),
  authenticatorAttachment: credential.authenticatorAttachment ?? undefined,
});
