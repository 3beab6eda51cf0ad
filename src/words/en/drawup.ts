/** Draw-up card, labels, the sheet for the cart, the litter on the scale, and the words that open a gate. */
export const drawup = {
  'gate.strength-twin': 'Another strength in the hand',
  'gate.not-made-up': 'Not made up yet',
  'gate.made-up-too-old': 'Made up too long ago',
  'gate.no-recipe': 'No recipe to dilute by',
  'gate.ingredient-too-soon': 'Same drug too soon',
  'gate.not-this-way': 'Not this way',
  'gate.too-soon-in-course': 'Next dose is not due yet',
  'gate.too-often': 'Too often',
  'gate.much-for-one-site': 'Much for one place',
  'gate.too-much-for-sites': 'Too much for the places there are',
  'gate.rinse-would-add': 'Do not rinse',
  'gate.not-yours-to-give': 'For the medical team to give',

  'round.gate.way.make-up': 'Make up a fresh vial.',

  'drawup.how.by-telephone': 'by telephone',
  'drawup.how.in-person': 'in person',
  'drawup.how.in-writing': 'in writing',
  'drawup.blood.no-rule': 'The signed formulary does not say how much blood may be drawn. Ask the medical team.',
  'drawup.blood.no-needle': 'Do not draw. Put the needle away, say why it was not done, and tell the medical team.',
  'drawup.blood.ledger': 'Drawn in the last {days} days, failed draws too: {drawn}.',
  'drawup.blood.ill': 'It is ill, so it is taken to have less blood.',
  'drawup.blood.do-not-draw': 'Not drawn',
  'drawup.blood.already': 'Blood has been drawn already: record it',

  'desk.stock.group.syringe': 'Syringes',
  'desk.stock.sort.syringe': 'syringes',
  'desk.stock.needs.syringe': 'Choose the syringe.',
  'desk.told.lot-received.syringe': 'Syringes in: {what}, lot {lot}, {pieces}.',
  'drawup.stock.syringe': 'Which syringe',

  'drawup.word.needs-licence': '{name} has no licence on record. Only a licensed veterinarian opens a stop.',
  'drawup.word.needs-reason': 'Say why the veterinarian allows it.',
  'drawup.word.past': 'The last day {until} is over. Choose today or a day to come.',
  'drawup.word.too-long':
    'One word counts until {most} at most. For longer, the veterinarian writes a standing order into the formulary.',
  'drawup.told.gate-opened':
    '{name} (licence {licence}) allowed {product} {how} until {until}, against: {gates}. Reason: {reason}',
} as const satisfies Record<string, string>;
