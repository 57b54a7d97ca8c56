// Passkeys: adds one, or signs in with one. Every form with data-passkey="create" or "get" is shown only where the
// browser has passkeys; without this script an authenticator app does the same.

const bytesOf = (text) =>
  Uint8Array.from(atob(text.replace(/-/g, "+").replace(/_/g, "/")), (sign) => sign.charCodeAt(0));

const textOf = (buffer) =>
  btoa(String.fromCharCode(...new Uint8Array(buffer)))
    .replace(/\+/g, "-")
    .replace(/\//g, "_")
    .replace(/=+$/, "");

const withBytes = (rows) => rows?.map((row) => ({ ...row, id: bytesOf(row.id) }));

function creationOptions(given, alone) {
  const options = { ...given, challenge: bytesOf(given.challenge), user: { ...given.user, id: bytesOf(given.user.id) } };
  options.excludeCredentials = withBytes(given.excludeCredentials);
  options.authenticatorSelection = {
    ...given.authenticatorSelection,
    residentKey: alone ? "required" : "discouraged",
    requireResidentKey: alone,
  };
  if (alone) options.authenticatorSelection.userVerification = "required";
  return options;
}

function requestOptions(given) {
  return { ...given, challenge: bytesOf(given.challenge), allowCredentials: withBytes(given.allowCredentials) };
}

// What the server reads (W3C Web Authentication Level 3, section 5.1: RegistrationResponseJSON, AuthenticationResponseJSON).
function asData(credential) {
  const response = {};
  for (const name of ["clientDataJSON", "attestationObject", "authenticatorData", "signature", "userHandle"]) {
    if (credential.response[name]) response[name] = textOf(credential.response[name]);
  }
  if (credential.response.getTransports) response.transports = credential.response.getTransports();
  return {
    id: credential.id,
    rawId: textOf(credential.rawId),
    type: credential.type,
    authenticatorAttachment: credential.authenticatorAttachment,
    clientExtensionResults: credential.getClientExtensionResults(),
    response,
  };
}

async function optionsOf(form) {
  if (form.dataset.options) return JSON.parse(form.dataset.options);
  const answer = await fetch(form.dataset.optionsFrom, { headers: { Accept: "application/json" } });
  if (!answer.ok) throw new Error("no answer");
  return (await answer.json()).request_options;
}

async function askDevice(form) {
  const { publicKey } = await optionsOf(form);
  if (form.dataset.passkey === "get") return navigator.credentials.get({ publicKey: requestOptions(publicKey) });
  const alone = Boolean(form.elements.passwordless?.checked);
  return navigator.credentials.create({ publicKey: creationOptions(publicKey, alone) });
}

const WORDS = {
  NotAllowedError: "It was not done, or took too long. Try again.",
  InvalidStateError: "This device holds a passkey for this account already.",
  SecurityError: "Passkeys do not work at this address. Use the site's name, not a number; or an authenticator app.",
};

function use(form) {
  const said = form.querySelector(".fault[role=alert]");
  form.hidden = false;
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    said.hidden = true;
    try {
      form.elements.credential.value = JSON.stringify(asData(await askDevice(form)));
      form.submit();
    } catch (problem) {
      said.textContent = WORDS[problem.name] ?? "That did not work. Try again, or use an authenticator app.";
      said.hidden = false;
    }
  });
}

const forms = document.querySelectorAll("form[data-passkey]");
if (window.PublicKeyCredential && navigator.credentials) forms.forEach(use);
else document.querySelectorAll("[data-no-passkeys]").forEach((notice) => (notice.hidden = false));
