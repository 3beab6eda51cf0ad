/** Sentences about weights, volumes and doses: what was read, what stands in the way, how a dose was worked out. */
export const dose = {
  'dose.number-empty': 'Nothing is entered.',
  'dose.number-negative': '“{entered}” is below zero. Enter the number without a sign.',
  'dose.number-fraction': '“{entered}”: write a half as 0.5 and a quarter as 0.25.',
  'dose.number-power': '“{entered}” is written as a power of ten. Write the number out.',
  'dose.number-unreadable': '“{entered}” cannot be read as a number. Nothing has been saved.',
  'dose.number-unfinished': '“{entered}”: digits are missing after the decimal sign.',
  'dose.number-two-readings': '“{entered}” can be read in two ways. Choose the one you mean.',

  'dose.weight-empty': 'No weight is entered.',
  'dose.weight-unreadable':
    '“{entered}” cannot be read as a weight. Examples: 650\u00a0g, 0.65\u00a0kg, 1\u00a0lb\u00a08\u00a0oz.',
  'dose.weight-unit-unknown': '“{unit}” is not a unit of weight here. Use g, kg, lb or oz.',
  'dose.weight-pounds-ounces':
    '“{entered}”: write whole pounds and less than 16 ounces, such as 1\u00a0lb\u00a08\u00a0oz.',
  'dose.weight-two-readings': '“{entered}” can be read in two ways. Choose the weight that the scale showed.',
  'dose.weight-zero': 'The scale shows 0. Put the animal on and weigh again.',
  'dose.weight-too-light': '“{entered}” is {read}: less than any live kitten. Check the unit and the digits.',
  'dose.weight-too-heavy': '“{entered}” is {read}: more than any cat. Check the unit and the decimal sign.',
  'dose.weight-too-heavy-grams':
    '“{entered}” is {read}: more than any cat. Were {grams} meant? Enter it with its unit.',
  'dose.weight-echo': '{grams} (that is {kilograms}, or {pounds})',
  'dose.weight-coarse':
    'This scale steps by {step}, which is {percent}\u00a0percent of {weight}. Use a gram scale under 1\u00a0kg.',

  'dose.weight-jump-up':
    '{weight} is {percent}\u00a0percent more than {last} {days, plural, =0 {earlier today} one {yesterday} other {# days ago}}. Weigh again.',
  'dose.weight-jump-down':
    '{weight} is {percent}\u00a0percent less than {last} {days, plural, =0 {earlier today} one {yesterday} other {# days ago}}. Weigh again.',
  'dose.weight-jump-pounds':
    '{weight} against {last} before: that is the step between pounds and kilograms. Check the unit and weigh again.',
  'dose.weight-jump-tenfold':
    '{weight} against {last} before: about ten times off. Check the decimal sign and weigh again.',
  'dose.weight-low-for-age': '{weight} is very little at {age} of age (believed from {from}). Weigh again.',
  'dose.weight-high-for-age': '{weight} is very much at {age} of age (believed up to {to}). Weigh again.',

  'dose.volume-zero': 'The volume is 0. Say “not given” if nothing was given.',
  'dose.volume-too-much': '“{entered}” is more than any one draw-up here. Check the decimal sign.',
  'dose.volume-too-fine': '“{entered}” is finer than any syringe can show. Enter what the mark says.',
  'dose.volume-two-readings': '“{entered}” can be read in two ways. Choose the volume you mean.',
  'dose.volume-units-of-what':
    'Units of which syringe? Choose the syringe first: 10\u00a0units are 0.1\u00a0mL on U-100 and 0.25\u00a0mL on U-40.',
  'dose.volume-units-short': 'Write “units” in full; a U is read as a zero or a 4.',
  'dose.volume-drops': 'Drops and spoons are no measure for a dose. Enter millilitres.',
  'dose.volume-unit-unknown': '“{entered}” has a unit that is not known here. Enter millilitres.',

  'dose.hours': '{n, plural, one {# hour} other {# hours}}',
  'dose.days': '{n, plural, one {# day} other {# days}}',
  'dose.span': '{parts}',
  'dose.span-years': '{n, plural, one {# year} other {# years}}',
  'dose.span-months': '{n, plural, one {# month} other {# months}}',
  'dose.span-weeks': '{n, plural, one {# week} other {# weeks}}',
  'dose.pieces': '{n}',
  'dose.pieces-part':
    '{whole, plural, =0 {{part, select, half {half} other {a quarter}}} other {# and {part, select, half {a half} other {a quarter}}}}',

  'dose.gate.species': '{product} is not for a {species}.',
  'dose.gate.never': 'Never give {ingredient} to a cat. {why}',
  'dose.gate.expired': 'This lot of {product} expired on {on}. Take another lot.',
  'dose.gate.withdrawn': 'This lot of {product} has been withdrawn. Do not use it; set it aside and tell the desk.',
  'dose.gate.age':
    '{product}: the label asks for {least} of age, this animal is {age} old. Only on a veterinarian’s order.',
  'dose.gate.age-uncertain':
    '{product}: the label asks for {least} of age, this animal is between {age} and {oldest} old. Only on a veterinarian’s order.',
  'dose.gate.weight':
    '{product}: the label asks for at least {least}, this animal weighs {weight}. Only on a veterinarian’s order.',
  'dose.gate.opened':
    'Opened by the standing order of {by} (licence {licence}, until {until}): {words} What it opens: {why}',
  'dose.gate.weight-missing': '{product} is dosed by weight, and there is no weight. Weigh the animal first.',
  'dose.gate.weight-stale':
    'The weight of {weight} is {old} old; at {age} of age at most {allowed}. Weigh again, or the dose is too small.',
  'dose.gate.weight-no-rule':
    'The formulary does not say how old a weight may be at {age} of age. Weigh again and tell the medical team.',
  'dose.gate.weight-from-future':
    'The weight carries a time that has not come yet ({at}). Check the clock and weigh again.',
  'dose.gate.weight-doubtful': 'The weight of {weight} was marked as doubtful. Weigh again before dosing.',
  'dose.gate.between-bands':
    '{product}: {weight} lies between two printed bands ({below} and {above}). Ask the medical team which one holds.',
  'dose.gate.under-bands': '{product}: {weight} is below the lowest printed band. Ask the medical team.',
  'dose.gate.over-bands': '{product}: {weight} is above the highest printed band. Ask the medical team.',
  'dose.gate.other-strength':
    'The volume rule of {product} belongs to {rule} only{is, select, other {, and this one is {is}}}. Do not use it.',
  'dose.gate.no-strength': 'The strength of {product} is not in the formulary, so no volume can be worked out.',
  'dose.gate.salt-and-base':
    '{product}: the dose is counted as {dose}, the strength as {strength}. A salt is not its base; ask the medical team.',
  'dose.gate.over-band': '{product}: {dose} is above the range of {low} to {high}.',
  'dose.gate.under-band': '{product}: {dose} is below the range of {low} to {high}.',
  'dose.gate.small-note': 'A small volume ({volume}): draw slowly, read at eye level, do not rinse the syringe.',
  'dose.gate.small-second':
    'A very small volume ({volume}): use half-unit marks; a second person works it out alone and reads the mark.',
  'dose.gate.small-stop': '{volume} is too small to measure. Ask the medical team for a dilution or a weaker strength.',
  'dose.gate.no-syringe': 'No syringe at hand can measure {volume}. This would: {syringes}.',
  'dose.gate.no-syringe-known':
    'No syringe of the formulary measures {volume} within {percent}\u00a0percent. Ask for a dilution or a weaker strength.',
  'dose.gate.given-over': '{given} is {times} times the dose of {dose}. Stop. Nothing is given; compare with the card.',
  'dose.gate.given-under': '{given} is {times} times the dose of {dose}. Stop and compare with the card.',
  'dose.gate.given-off': '{given} is {percent} off the dose of {dose}. A second person reads the mark.',

  'dose.product-unknown': 'There is no product “{product}” in the formulary.',
  'dose.one-amount-wanted': 'Give the amount in exactly one way: mg_per_kg, mg_per_lb, ml_per_kg or ml_per_lb.',

  'dose.step.weight': 'Weight {weight}.',
  'dose.step.per-kg': 'Rule: {dose} of body weight; the strength is {strength}.',
  'dose.step.per-weight': 'Rule: {volume} for each {per} of body weight, for {strength} only.',
  'dose.step.band': 'Rule: from {from} to under {to} the label gives {amount}.',
  'dose.step.fixed': 'Rule: {amount} for every animal, whatever its weight.',
  'dose.step.drug': 'That is {drug} of {ingredient}.',
  'dose.step.drug-per-kg': 'That is {drug} of {ingredient}, {perKg}.',
  'dose.step.volume': 'Exact volume {volume}.',
  'dose.step.mark':
    'Draw to {mark}{scale, select, mL {} other { ({volume})}} with the {syringe}: {way, select, even {exactly the dose} under {{percent}\u00a0percent under the exact {exact}} other {{percent}\u00a0percent over the exact {exact}}}; up to {tolerance}\u00a0percent is allowed.',
} as const satisfies Record<string, string>;
