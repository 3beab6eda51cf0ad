/** Sentences about signing in, devices, and records that are kept apart. */
export const people = {
  'people.pin.digits': 'A PIN has {digits} digits.',
  'people.pin.guessed': 'This PIN is among the first that are tried. Choose another one.',
  'people.pin.not-for-desk': 'Whoever runs the desk or is of the medical team signs in by a password.',
  'people.password.length': 'A password has {least} to {most} characters; 15 or more are better. A sentence will do.',
  'people.password.guessed':
    'This password is among the first that are tried, or is a name of the shelter. Choose another one.',
  'people.apart.device-revoked':
    'This device was revoked. The record is kept apart until somebody at the desk has judged it.',
  'people.apart.not-signed-in':
    '{name} was not signed in on this device at that time. The record is kept apart until somebody at the desk has judged it.',
  'people.hand-away': 'This waits until {name} signs in on this device.',
  'people.not-fresh':
    'This takes a veterinarian who has given the password within the last 10 minutes. It waits here as a draft.',
  'people.administrator-by-another':
    'Somebody who looks after sign-ins is taken off the list of those at work by another who does. Give that duty to another first.',
  'people.not-own-animal': 'A foster home writes about the animals that are with it only.',
  'people.first-code':
    'The first administrator signs in with this code. It works once, and until the program is started again: {code}',

  'people.locked.lead':
    'Nobody has touched this device for a while. Tests that run are shown and sound as before; the rest waits for a PIN or password.',
  'people.locked.open': 'Go on',

  // Devices of the shelter, and what is kept apart of them.
  'people.device.title': 'Devices of the shelter',
  'people.device.lead':
    'Volunteers sign in by a PIN on these devices alone. A lost one is revoked: it is out at once, or as soon as it meets the server.',
  'people.device.unnamed': 'Device {id}',
  'people.device.here': 'this device',
  'people.device.name': 'Device',
  'people.device.people': 'Who signed in there',
  'people.device.seen': 'Last here',
  'people.device.enrolled': 'enrolled',
  'people.device.by-password': 'by password only',
  'people.device.revoked': 'revoked {at}',
  'people.device.revoke': 'Revoke…',
  'people.device.revoke-one': 'Revoke {name}',
  'people.device.revoke-what':
    'Nobody is signed in there any more, and its PINs no longer work. What was written there and not sent is kept apart when it comes, for you to look at. It cannot be undone: the device is enrolled anew by emptying it.',
  'people.device.add': 'Enrol a device…',
  'people.device.name-of-new': 'How it is called (Phone 3, Tablet of the nursery)',
  'people.device.make-code': 'Make a code',
  'people.device.scan':
    'Scan this with the camera of the new device, or open this address there and type the code. It works once, until {until}.',
  'people.device.qr': 'QR code that enrols a device',
  'people.device.out-of-reach': 'The server cannot be reached; this is done there only.',
  'people.apart.title': 'Kept apart',
  'people.apart.lead':
    'Nobody could vouch for these records. Ask who wrote them; take in what is true and drop what is not.',
  'people.apart.line': '{what} ({name}, {at})',
  'people.apart.why-device-revoked': 'the device was revoked',
  'people.apart.why-not-signed-in': 'not signed in on that device then',
  'people.apart.take': 'Take it in',
  'people.apart.drop': 'Drop it',
  'people.care.title': 'How {name} signs in',
  'people.care.short': 'Sign-in…',
  'people.care.code-lead':
    'With a code somebody chooses their own password, or on an enrolled device a PIN. Give it to nobody else: whoever has it is them. What they used before no longer works.',
  'people.care.code': 'Make a code',
  'people.care.code-is': 'The code for {name}. It works once, until {until}.',
  'people.care.end': 'Sign out everywhere and take password and PIN away',
  'people.care.ended': '{name} is signed in nowhere any more.',
  'people.care.make-administrator': 'Make administrator',
  'people.care.no-administrator': 'No longer administrator',
  'people.care.is-administrator': '{name} looks after sign-ins and devices now.',
  'people.care.is-none': '{name} does not look after sign-ins and devices any more.',
  'people.care.drafts-title': 'Waits for your password',
  'people.care.drafts-wait':
    'What was signed or ordered here waits as a draft: it takes a veterinarian who has given the password within the last 10 minutes.',
  'people.care.confirm': 'Give it and send',

  // Signing in on a device.
  'people.in.title': 'Sign in',
  'people.in.name': 'Your name',
  'people.in.secret': 'Your password or PIN',
  'people.in.password': 'Your password',
  'people.in.go': 'Sign in',
  'people.in.needs-secret': '{person} types the password or PIN first.',
  'people.in.again':
    'The server does not know who is working here: tap your name above and sign in again. What is written meanwhile is kept on this device.',
  'people.in.out': 'Sign out',
  'people.in.demo': 'This shelter is invented: everybody signs in with one tap, without a password.',
  'people.in.code-title': 'You were given a code',
  'people.in.code-lead':
    'With it you choose your own password, or on a device of the shelter a PIN of six digits. The code works once.',
  'people.in.code': 'The code for you',
  'people.in.new-secret': 'Your new password or PIN',
  'people.in.taken-as-pin': 'Taken as a PIN.',
  'people.in.taken-as-password': 'Taken as a password.',
  'people.in.code-go': 'Set it and sign in',
  'people.in.enrol-title': 'Enrol this device',
  'people.in.enrol-lead':
    'The desk makes a code under This device. On an enrolled device people choose their name and sign in by a PIN.',
  'people.in.device-code': 'The code for this device',
  'people.in.enrol-go': 'Enrol it',
  'people.in.enrolled': 'This device is enrolled as {name}.',
  'people.in.first-title': 'Nobody can sign in yet',
  'people.in.first-lead':
    'The program has printed a code where it was started. Whoever types it here is the first administrator and can let the others in.',
  'people.in.first-code': 'The code that was printed',
  'people.in.first-go': 'Become the first administrator',
  'people.in.new-password': 'Your new password',
  'people.in.password-hint': '8 characters or more; 15 are better. A sentence will do.',
  'people.in.password-offline':
    'The server cannot be reached, and a password is checked there only. By a PIN, who has signed in here before can go on.',
  'people.in.pin-wrong': 'This is not the PIN that was used here.',
  'people.in.pin-not-here':
    'The server cannot be reached, and nobody of this name has signed in on this device by a PIN before.',
  'people.in.pin-used-up':
    'The PIN was wrong {tries} times. On this device it works again once the server has been reached.',
} as const satisfies Record<string, string>;
