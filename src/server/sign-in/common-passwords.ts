/** What a shelter of cats adds to the lists of passwords that people have used. Our own choice, no source. */
const ours = ['kitten', 'kittens', 'kitty', 'cat', 'cats', 'shelter', 'roundhand', 'volunteer', 'passwort', 'abcdefgh'];

let known: Promise<ReadonlySet<string>> | null = null;

/**
 * Passwords that are tried first by whoever guesses: some 49,000, of which some 18,000 are long enough to be set here; more
 * than the three thousand that OWASP ASVS 5.0.0, V6.2.4 asks for. Read when a password is first set.
 */
function knownPasswords(): Promise<ReadonlySet<string>> {
  known ??= import('@zxcvbn-ts/language-common').then(
    ({ dictionary }) => new Set([...dictionary['passwords-common'].map(String), ...ours]),
  );
  return known;
}

/** Whether a password is one of them, as it is or with digits and signs at its end; capitals make no difference. */
export async function isCommon(password: string): Promise<boolean> {
  const there = await knownPasswords();
  const small = password.toLowerCase();
  const bare = small.replace(/\P{L}+$/u, '');
  return there.has(small) || there.has(bare);
}
