/** Sentences about chip numbers: why one cannot be taken, and what to look at in one that is. */
export const chip = {
  'chip.empty': 'Nothing was read. A scan that finds nothing is a result: record “none found”.',
  'chip.unreadable': '“{raw}” is not a chip number. Scan again.',
  'chip.length':
    'Cut, or two in one: {digits} digits came, and a chip number has 15 (older kinds 9 or 10). Nothing has been saved. Scan again.',
  'chip.cut': 'Cut, scan again: {code} is only a piece of a number that is on record here. Nothing has been saved.',
  'chip.once-more':
    '{code}: only {digits} signs. It may be a piece of a longer number. Scan again: it counts when the same comes twice.',
  'chip.zero-missing':
    'Cut: only {digits} digits came, or a leading zero is missing, as spreadsheets drop it. Scan again, or type all 15 digits from the label.',
  'chip.letter-inside':
    '“{raw}” has the letter {letter} at place {place} where a chip number cannot have it. Is it a digit (O and 0, I and 1)? Scan again.',
  'chip.power-of-ten':
    '“{raw}” was turned into a power of ten by a spreadsheet; its digits are gone. Keep the column as text and export again, or scan.',
  'chip.rounded':
    '{code} ends in zeros as rounded numbers from a spreadsheet do. Scan the animal or type the number from the label.',
  'chip.keyboard-layout':
    '“{raw}” looks like digits typed on another keyboard layout. Set the reader and the device to the same layout. Nothing has been saved.',
  'chip.glued-different': 'Two different numbers arrived in one go ({raw}). Scan one chip at a time.',
  'chip.two-different': 'Two different chips were read: {first} and {second}. Stop and look for a second chip.',
  'chip.industrial': 'This is an industrial tag, not an animal’s chip.',
  'chip.national-too-big':
    '{code} cannot exist: its last 12 digits are above the largest number of the standard. Scan again.',
  'chip.prefix-zero': '{code} begins with 000, which is not a valid chip number. Scan again and tell the desk.',
  'chip.prefix-too-big': 'The prefix of this code has more than three digits, so it is not an animal’s number.',
  'chip.hex-order':
    'These 16 characters can be read from either end, or from neither. Set the reader to print 15 digits.',
  'chip.frame-check': 'The check byte of the reader’s message does not fit. Scan again.',
  'chip.telegram-length': 'The telegram is not complete. Scan again.',
  'chip.telegram-header': 'The telegram does not begin or continue as the standard says. Scan again.',
  'chip.telegram-crc': 'The check sum of the telegram does not fit. Scan again.',

  'chip.control-wrong': 'The control digits do not fit {code}. One of the digits was copied wrongly.',

  'chip.nine-digits': 'A 9-digit chip (125 kHz). Compare with the label: it may also be part of a longer number.',
  'chip.ten-digits': 'Ten digits: an older chip, or part of a longer number. Compare with the label.',
  'chip.not-pet-chip': 'Ten characters of a kind that is not usual for pets (an access tag?). Compare with the label.',
  'chip.test-number': '{code} begins with 999: test numbers, not meant for animals. Tell the desk.',
  'chip.prefix-not-assigned':
    'The prefix {prefix} belongs to no country and no manufacturer. Scan again and tell the desk.',
  'chip.animal-bit': 'The chip does not say that it is in an animal. Readers set to animals only will not see it.',
  'chip.known-misuse': '{code} is in a range known for misuse or double numbers. Check for a second animal with it.',

  'chip.left': '{label} (left on {on})',

  'chip.box-range': 'A box list needs a 15-digit first number and a count from 1 to 1000.',
} as const satisfies Record<string, string>;
