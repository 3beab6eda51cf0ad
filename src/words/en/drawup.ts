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

  'drawup.second.open': 'A second person works it out alone…',
  'drawup.second.title': 'The second person, alone',
  'drawup.second.how':
    'For {name}. Weigh, or read the weight on the sheet; work out the volume; read the plunger. The first answer is not shown.',
  'drawup.second.syringe': 'Drawn in: {syringe}.',
  'drawup.second.who': 'Who works it out',
  'drawup.second.weight': 'Weight',
  'drawup.second.volume': 'Volume at the plunger, mL',
  'drawup.second.volume-units': 'At the plunger: write mL, or units in full',
  'drawup.second.compare': 'Compare',
  'drawup.second.agreed': 'worked out alone: {weight}{volume, select, other {, {volume}}}',

  'drawup.label.look': 'Read the label: {strength}. Other strengths exist.',
  'drawup.label.check': 'What it says…',
  'drawup.label.which': 'Which strength does the label in the hand say?',
  'drawup.label.says': 'The label says {strength}',
  'drawup.made-up.which': 'Make it up with {diluent}, as the label of the vial says. Which strength, now?',
  'drawup.made-up.now': '{strength}',
  'drawup.made-up.now-with': '{strength}: {diluent} in',
  'drawup.made-up.label': 'Write on the vial: {strength}, made up {at}, throw away {until}.',
  'drawup.made-up.again': 'Another vial',
  'drawup.recipe.use': 'Dilute by the signed recipe to {strength}',
  'drawup.recipe.make':
    'Signed recipe: {stock} of it and {diluent} of {what}; good for {hours, plural, one {# hour} other {# hours}}. Gives',
  'drawup.recipe.undo': 'Not diluted',
  'drawup.places': '{places} times, each in a place of its own: {total} in all.',
  'drawup.exact':
    'Exact {exact}. The syringe may be off by {percent}\u00a0percent, with the rounding {combined}\u00a0percent.',

  'drawup.second.done': 'Worked out twice, each alone, and the same',
  'drawup.note.made-up': 'Made up to {strength}\u00a0mg per mL on {at}.',
  'drawup.note.diluted': 'Diluted by the recipe {recipe}.',
  'drawup.note.places': 'In {places} places.',

  'drawup.sign.confirm':
    'From memory: look each one up, tick it when it is right, change the document when it is not ({done} of {all})',

  'drawup.word.why': 'Why, in the veterinarian’s words',
  'drawup.word.until': 'It counts',
  'drawup.word.today': 'today only',
  'drawup.word.days': 'until {until}',

  'drawup.word.needs-licence': '{name} has no licence on record. Only a licensed veterinarian opens a stop.',
  'drawup.word.needs-reason': 'Say why the veterinarian allows it.',
  'drawup.word.past': 'The last day {until} is over. Choose today or a day to come.',
  'drawup.word.too-long':
    'One word counts until {most} at most. For longer, the veterinarian writes a standing order into the formulary.',
  'drawup.told.gate-opened':
    '{name} (licence {licence}) allowed {product} {how} until {until}, against: {gates}. Reason: {reason}',
} as const satisfies Record<string, string>;
