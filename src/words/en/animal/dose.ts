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
  'dose.weight-two-readings':
    '“{entered}” can be {one} or {other}. Choose the weight that the scale showed; only what a cat can weigh is offered.',
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
  'dose.weight-gain-too-fast':
    '{weight} is {gain} more than {last} {days, plural, =0 {earlier today} one {yesterday} other {# days ago}}: no kitten gains so fast. Weigh again.',
  'dose.weight-beyond-age':
    '{weight} twice, and no cat of {age} weighs that: the scale may be wrong, or the age. Have the medical team weigh it; look at the date of birth. No dose goes by it until then.',
  'dose.weight-beyond-jump':
    '{weight} twice, where it was {last} {days, plural, =0 {today} one {# day ago} other {# days ago}}: one scale alone does not prove that. Weigh it on another scale, or have the medical team weigh it. No dose goes by it until then.',
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
  'dose.days-and-hours':
    '{days, plural, one {# day} other {# days}}{hours, plural, =0 { and a little} one { and # hour} other { and # hours}}',
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
  'dose.gate.weight-from-future': 'The weight has a time in the future ({at}). Check the clock and weigh again.',
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
  'dose.gate.amount-by-order':
    '{product} has no amount of its own. How much comes only from a veterinarian’s order for this animal.',
  'dose.gate.ordered-often':
    '{product} is ordered {times} times a day; the formulary gives it at most {usual, plural, one {once} other {# times}} a day.',
  'dose.gate.not-in-this-unit': '{product} is measured in {in}, and the order is in {by}. Ask the veterinarian.',
  'dose.gate.other-than-strip':
    '{product}: only its own strip is measured, and the order comes to {drug}. Write the order in words.',
  'dose.gate.not-in-quarters':
    '{product}: the order comes to {count} of it, and only quarters can be given. Ask the veterinarian for an amount that can.',
  'dose.gate.far-from-own':
    '{product}: the order is {times} times what the formulary gives this animal. Ask the veterinarian before anything is drawn.',
  'dose.gate.order-without-amount':
    '{product} has no amount of its own, and the order gives no amount: ask the veterinarian.',
  'dose.gate.limit-of-place':
    '{product}: at most {most} in one place, in {places, plural, one {one place} other {# places}} a day. That is a limit, not a dose.',
  'dose.gate.over-places':
    '{given} of {product} is more than its places take in a day: at most {most} in one place, {places, plural, one {one place} other {# places}}.',
  'dose.gate.under-least':
    '{product}: {is} is under the least of its label, {least}, which is {asked} for this animal.',
  'dose.gate.volume-over':
    '{given} of {product} is {dose}, above its range of {low} to {high}. Look again before you go on.',
  'dose.gate.volume-under':
    '{given} of {product} is {dose}, below its range of {low} to {high}. Look again before you go on.',
  'dose.gate.small-note': 'A small volume ({volume}): draw slowly, read at eye level, do not rinse the syringe.',
  'dose.gate.small-second':
    'A very small volume ({volume}): use half-unit marks; a second person works it out alone and reads the mark.',
  'dose.gate.small-stop': '{volume} is too small to measure. Ask the medical team for a dilution or a weaker strength.',
  'dose.gate.no-syringe': 'No syringe at hand can measure {volume}. This would: {syringes}.',
  'dose.gate.no-syringe-known':
    'No syringe of the formulary measures {volume} within {percent}\u00a0percent. Ask for a dilution or a weaker strength.',
  'dose.gate.mark-in-band':
    'No syringe measures {exact} ({usual}) finely enough. Draw to {mark}: {is}, inside the limits of {low} to {high}.',
  'dose.gate.given-over': '{given} is {times} times the dose of {dose}. Stop. Nothing is given; compare with the card.',
  'dose.gate.given-under': '{given} is {times} times the dose of {dose}. Stop and compare with the card.',
  'dose.gate.given-off': '{given} is {percent} off the dose of {dose}. A second person reads the mark.',

  'dose.gate.opened-by-word':
    'Opened for this animal by {by} (licence {licence}, until {until}): {reason}. What it opens: {why}',
  'dose.gate.over-most':
    '{product}: {dose} is above {high}, the most this product may reach on any animal. Do not give it.',
  'dose.gate.not-yours': '{product} is given by the medical team only. Ask one of them to give it.',
  'dose.gate.strength-twin':
    'The label in your hand says {read}; the dose was worked out for {own}. The same volume would be {times} times the dose.{what, select, other { It is: {what}.}} Put it back and take the other.',
  'dose.gate.not-made-up':
    '{product} has to be made up with {diluent} first: its strength depends on how much goes in. Say how much went in and when.',
  'dose.gate.made-up-otherwise':
    '{product} was made up to a strength that its formulary does not know. Throw it away and make up a fresh one.',
  'dose.gate.made-up-too-old':
    '{product} made up with {diluent} keeps {hours, plural, one {# hour} other {# hours}}; this one was good until {until}. Throw it away and make up a fresh one.',
  'dose.gate.no-recipe':
    '{product} may be diluted only by a recipe of the signed formulary, and there is none like this. Ask the medical team.',
  'dose.gate.not-yours-to-choose':
    'The order leaves a range open, and the medical team chooses how much {product} of it is given. Ask them.',
  'dose.gate.other-route': '{product} goes in {route} by its label; the order says {ordered}.',
  'dose.gate.if-so': '{words}',
  'dose.gate.if-ask-veterinarian': '{words} The veterinarian decides.',
  'dose.gate.if-weight-unknown': 'No weight is known, and this goes by it: {words} Weigh first.',
  'dose.gate.if-unknown': 'Not known: {question}',
  'dose.gate.ingredient-too-soon':
    '{product} holds {ingredient}, and {other} with {ingredient} was given on {at_day}: at least {days, plural, one {# day} other {# days}} lie between. Ask the medical team.',
  'dose.gate.family-too-soon':
    '{product} holds {own}, and {other} with {ingredient}, which is kept apart from it, was given on {at_day}: at least {days, plural, one {# day} other {# days}} lie between. Ask the medical team.',
  'dose.gate.not-this-way': '{product} holds {ingredient}. {why}',
  'dose.gate.course-early':
    '{product}: dose {number} of {of} falls due on {due}; the one before was given on {last}. Wait, or ask the medical team.',
  'dose.gate.doses-a-day':
    '{product}: at most {most, plural, one {one dose} other {# doses}} in 24 hours, and {given} {given, plural, one {has} other {have}} been given. Wait.',
  'dose.gate.mg-a-day': '{product}: at most {most} in 24 hours, and {given} have been given. Ask the medical team.',
  'dose.gate.days-in-a-row':
    '{product}: at most {most} days in a row, and it was given on {days}. Ask the medical team before any more.',
  'dose.gate.split':
    '{volume} of {product} is more than {most} for one place: draw it {places} times, each for a place of its own.',
  'dose.gate.too-much-for-sites':
    '{volume} of {product} would need more than the {places} places a day that it may go to ({most} each). Ask the medical team.',
  'dose.gate.large-for-site':
    '{volume} is a good deal for one place in this animal (most {most}): warm it and go slowly.',
  'dose.gate.much-for-site':
    '{volume} is more than is usual at one place in this animal ({most}). A second person looks; ask whether it is to be split.',
  'dose.gate.rinse':
    'Do not rinse the {syringe} and do not draw back: {dead} stay in tip and needle, and rinsing makes {times} times the {volume}.',

  'dose.second.weight-differs':
    'The two weights do not agree. Nothing is given. Both weigh and read again, then work it out again, each alone.',
  'dose.second.volume-differs':
    'The two volumes do not agree. Nothing is given. Both work it out again, each alone, and read the plunger again.',

  'dose.confirm.product': '{name}: the whole entry is from memory',
  'dose.confirm.figure': '{name}: {figure}',
  'dose.confirm.part':
    '{name}: {part, select, course {how often and how long} daily {the most of one day} place {the most at one place} claims {what its label claims} other {how it is made up}}',
  'dose.confirm.recipe': '{name}: recipe {recipe}',
  'dose.confirm.twin': '{name}: another strength of {strength}\u00a0mg per mL exists',
  'dose.confirm.syringe': '{name}: its size and marks',
  'dose.confirm.kit': '{name}: drops, times and window',
  'dose.confirm.instrument': 'How far a sound syringe may be off, and what stays in it',
  'dose.confirm.blood': 'How much blood may be drawn',
  'dose.confirm.route': 'How much may go to one place {route}',
  'dose.confirm.spacing': '{ingredients}: at least {days, plural, one {# day} other {# days}} between two doses',
  'dose.confirm.not-this-way': '{ingredient}: {why}',
  'dose.confirm.mix': '{name}: its proportions',
  'dose.confirm-first':
    '{count, plural, one {One figure is} other {# figures are}} from memory and not confirmed yet. Look each up and tick it, or take it out: {first}.',
  'dose.fault.twice': 'two products are called {id}.',
  'dose.fault.source': '{name} names a source {source} that is not in the list.',
  'dose.fault.recipe': '{name}: the recipe {recipe} does not give the strength it says.',
  'dose.fault.order': 'a standing order is for {id}, which is no product.',
  'dose.fault.band': '{name}: the low end of its range is above the high end.',
  'dose.fault.order-of-doses': '{name}: low, usual and high dose are not in this order.',
  'dose.fault.usual-outside': '{name}: the usual dose lies outside its own range.',
  'dose.fault.no-grams': '{name}: its amount is in grams, and it has no mg per g.',
  'dose.fault.marks-in-band': 'Marks inside the limits: the first figure lies under 1, the second over 1.',
  'dose.fault.no-end':
    '{name}: a printed or fixed amount in mg has no end. Say above how many mg per kg it stops on any animal.',
  'dose.fault.bands': '{name}: two weight bands overlap.',
  'dose.fault.amount': '{name}: a weight band names neither a volume nor pieces.',

  'dose.product-unknown': 'There is no product “{product}” in the formulary.',
  'dose.age-reversed': 'The youngest age, {youngest} days, is above the oldest, {oldest} days. Swap them.',
  'dose.given-unknown':
    'Given before: there is no product “{product}” in the formulary, so nothing can be held against it. Ask what it was.',
  'dose.gate.over-any-dose':
    'These figures come to {dose}, {volume}\u00a0mL per kg: more than any single dose here. Read the label again, and ask.',
  'dose.one-amount-wanted': 'Give the amount in exactly one way: mg_per_kg, mg_per_lb, ml_per_kg or ml_per_lb.',

  'dose.step.weight': 'Weight {weight}.',
  'dose.step.per-kg': 'Rule: {dose} of body weight; the strength is {strength}.',
  'dose.step.per-weight': 'Rule: {volume} for each {per} of body weight, for {strength} only.',
  'dose.step.band':
    'Rule: from {over, select, yes {over } other {}}{from} to {through, select, yes {} other {under }}{to} the label gives {amount}.',
  'dose.step.fixed': 'Rule: {amount} for every animal, whatever its weight.',
  'dose.step.drug': 'That is {drug} of {ingredient}.',
  'dose.step.drug-per-kg': 'That is {drug} of {ingredient}, {perKg}.',
  'dose.step.volume': 'Exact volume {volume}.',
  'dose.step.diluted': 'Diluted by the signed recipe to {strength}.',
  'dose.step.places': 'In {places} places: {volume} each.',
  'dose.step.instrument':
    'A sound syringe may be off by {percent}\u00a0percent at this volume; with the rounding at most {combined}\u00a0percent.',
  'dose.step.little-of-barrel':
    'That is little for a barrel of this size: read it at eye level, at the black edge nearest the needle.',
  'dose.step.mark': 'Draw to {mark} with the {syringe}: exactly the dose.',
  'dose.step.mark-under':
    'Draw to {mark} with the {syringe}: {percent}\u00a0percent under the unrounded {exact}; up to {tolerance}\u00a0percent is allowed.',
  'dose.step.mark-in-band':
    'Draw to {mark} with the {syringe}: {percent}\u00a0percent {way, select, under {under} other {over}} the unrounded {exact}, inside the limits of the product.',
  'dose.step.mark-over':
    'Draw to {mark} with the {syringe}: {percent}\u00a0percent over the unrounded {exact}; up to {tolerance}\u00a0percent is allowed.',
} as const satisfies Record<string, string>;
