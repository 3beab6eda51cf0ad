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
  'people.not-own-animal': 'A foster home writes about the animals that are with it only.',
  'people.first-code':
    'The first administrator signs in with this code, which works once and until the program is stopped: {code}',

  // Signing in on a device.
  'people.in.title': 'Sign in',
  'people.in.name': 'Your name',
  'people.in.secret': 'Your password or PIN',
  'people.in.password': 'Your password',
  'people.in.go': 'Sign in',
  'people.in.again':
    'The server does not know who is working here: tap your name above and sign in again. What is written meanwhile is kept on this device.',
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
