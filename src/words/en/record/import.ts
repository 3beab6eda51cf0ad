/** Bringing animals in from a file: what was recognised, what a person must look at, why a row is turned away. */
export const importing = {
  'import.empty-file': 'The file is empty.',
  'import.is-spreadsheet': 'This is a spreadsheet file. Open it, save it as CSV, and bring in that file.',
  'import.is-pdf': 'This is a PDF. Ask for the same list as CSV.',
  'import.not-text': 'This is not a table of text. Ask for the list as CSV.',
  'import.utf16-unmarked':
    'The file does not say how its letters are written; they were read as UTF-16. Look at a few names.',
  'import.cut-off': 'The file ends in the middle of a letter. It may be cut off; compare the last row with the source.',
  'import.code-page':
    'The letters are in an older code page (read as Windows-1252). Look at names with accents, for instance “{word}”.',
  'import.only-headings': 'The file has headings but no rows.',
  'import.one-column':
    'Only one column was found (“{heading}”). Choose another sign between the columns if this is wrong.',
  'import.heading-twice': 'The heading “{heading}” stands over two columns. Check which is which.',
  'import.no-headings': 'The first row looks like data (“{cell}”), not like headings. Put a row of headings on top.',
  'import.quote-not-closed':
    'Row {row} (line {line}): a quotation mark is opened and never closed, so this row and all after it cannot be read. Close or remove it.',
  'import.quote-inside':
    'Row {row} (line {line}): there is a quotation mark in the wrong place. Double it or remove it.',
  'import.quote-swallows-rows':
    'Row {row} (line {line}): an open quotation mark has swallowed the rows after it. Close or remove it.',
  'import.too-many-cells':
    'Row {row} has {cells} values under {columns} headings, so they may stand under the wrong ones. Put values that hold the separating sign in quotation marks.',
  'import.too-few-cells': 'Row {row} has {cells} values under {columns} headings; the last ones are taken as empty.',
  'import.row-broken': 'The values of this row cannot be told apart.',

  'import.no-species-column': 'No column tells the species: every row is taken as a cat.',
  'import.no-name-column': 'No column was recognised as the name or the number. Choose one.',
  'import.no-arrival-column':
    'No column was recognised as the day of arrival. Choose one, or today is entered for every animal.',
  'import.no-place-column':
    'No column tells where the animals are. Choose a section, or they come in without one and are on no round.',
  'import.which-dates': 'Several columns hold dates, but the headings do not say which. Choose arrival and leaving.',
  'import.date-taken-as-left':
    'The heading “{heading}” does not say which day it is. It was taken as the day of leaving.',
  'import.date-taken-as-arrived':
    'The heading “{heading}” does not say which day it is. It was taken as the day of arrival.',
  'import.ask-date-order': 'Is “{example}” {one} or {other}? The answer counts for the whole file.',
  'import.ask-date-order-mixed':
    'Some dates of this file can only be day first, others only month first. Say which one “{example}” is; the others must be put right in the file.',
  'import.ask-decimal': 'Is the comma or the point in “{example}” a decimal sign, or does it set off thousands?',
  'import.ask-decimal-mixed':
    'Some weights of this file have a decimal comma, others a decimal point. Which one is it in “{example}”?',
  'import.ask-age-day':
    'On which day were the ages of this file true? {rows, plural, one {# row has} other {# rows have}} an age (“{example}”) without a day.',
  'import.ask-may-tell':
    'The column “{heading}” may tell who has died or left ({rows, plural, one {# row} other {# rows}}, for instance “{example}”), and it is not used. Say what it is, or that it does not tell.',
  'import.ask-weight-unit': 'In which unit is the weight “{example}”?',

  'import.not-a-cat': 'Not a cat: {species}.',
  'import.species-blank': 'The species is not given. Is it a cat?',
  'import.nothing-to-find-it-by': 'The row has neither a name nor a number.',
  'import.left-already': 'Left on {left}.',
  'import.left-how-gone': 'The file says “{how}”: the animal is not here any more.',
  'import.marked-dead': 'The file says that the animal is dead.',
  'import.dead-not-understood': '“{cell}” stands where the file says who is dead. Is the animal dead?',
  'import.may-have-left': 'The column “{heading}” says “{cell}”. Has the animal died or left?',
  'import.returned-in-future': 'The day of coming back, {day}, is in the future.',
  'import.returned-before-leaving':
    'It came back on {back}, before it left on {left}. One of the two days is wrong. Is it here?',
  'import.returned-though-gone': 'The file says “{how}” and that it came back on {back}. Is it here?',
  'import.came-back': 'It left and came back on {back}: it is in care.',
  'import.foster-or-left': 'The file says “{how}”. Is it in a foster home, or has it left?',
  'import.fostered': 'It is in a foster home, so it is in care.',
  'import.fostered-since': 'It has been in a foster home since {since}, so it is in care.',
  'import.left-without-date': 'The file says “{how}” but no day of leaving. Is the animal still here?',
  'import.left-before-arrival': 'It left on {left}, before it arrived on {arrived}. One of the two days is wrong.',
  'import.left-in-future': 'The day of leaving, {day}, is in the future, so the animal is taken as still here.',
  'import.place-dead': 'The place “{place}” means that the animal is dead.',
  'import.place-missing': 'The place “{place}” means that the animal is missing.',
  'import.place-not-here': 'You said that animals in “{place}” are not here.',
  'import.place-blank': 'No place is given: choose a section.',
  'import.place-not-a-section': '“{place}” is not a section: choose one.',
  'import.other-stay': 'An earlier or ended stay of {label}; row {row} is the one that counts.',
  'import.same-number': 'Row {row} has the same number {label} but another name or sex. Are they two animals?',
  'import.later-stay-ended': 'A later stay of this animal (row {row}) ended on {left}. Is it still here?',
  'import.looks-the-same': 'Row {row} describes the same animal, or one just like it.',
  'import.already-there': 'Already here as {label}.',
  'import.was-here-before': 'An animal with the number {label} was here before; this is taken as a new stay.',

  'import.date-two-readings': '“{cell}” is {one} or {other}. Say which comes first in this file, the day or the month.',
  'import.no-such-day': 'There is no such day as “{cell}”.',
  'import.not-a-day': '“{cell}” is not a day that can be read.',
  'import.arrived-in-future': 'The day of arrival, {day}, is in the future.',
  'import.arrival-missing': 'The day of arrival is not known; {today} is entered.',
  'import.weighed-in-future': 'The day of weighing, {day}, is in the future.',
  'import.born-in-future': 'The birth date, {day}, is in the future and was left out.',
  'import.born-after-arrival': 'The birth date, {day}, is after the arrival on {arrived} and was left out.',
  'import.born-long-ago': 'The birth date, {day}, is too long ago and was left out.',
  'import.birth-counted-back':
    'The birth date {day} is on the day of the month of the arrival, so it was counted back from a guessed age: taken as estimated.',
  'import.birth-from-age': 'The birth is estimated from the age “{age}”.',
  'import.birth-unknown': 'The birth is not known.',
  'import.birth-and-age-differ':
    'The birth date {day} and the age “{age}” do not fit together. The birth date was taken.',
  'import.age-not-read': 'The age “{age}” cannot be read. Write a number and a unit, for instance “7 weeks”.',
  'import.age-without-date': 'The age “{age}” has no day to which it refers.',
  'import.age-day-asked':
    'The age “{age}” is not used before somebody has said on which day the ages of this file were true.',
  'import.age-not-used': 'The age “{age}” is not used, as you said.',
  'import.age-too-old': 'The age “{age}” would make it over 30 years old; it was left out.',
  'import.age-after-arrival':
    'By the age “{age}” on {on} it was born after it arrived on {arrived}; the age was left out.',
  'import.born-here-differs':
    'The file says “{cell}” and that it arrived on {arrived}, but by its age or birth date it was born between {from} and {to}.',

  'import.letters-damaged': 'The letters of “{typed}” were damaged on the way. Is it “{offered}”?',
  'import.name-is-a-sign': 'The name is only “{name}”.',
  'import.name-means-none': 'The name “{name}” seems to mean that there is none.',
  'import.name-is-a-number': 'The name “{name}” holds a number like an animal’s number.',
  'import.label-blank': 'The animal has no number in this file.',
  'import.look-alike':
    '{count, plural, one {One other name} other {# other names}} of this file {count, plural, one {differs} other {differ}} from this one by a figure or a sign only.',
  'import.sex-contradictory': '“{cell}” says two different things about sex or neutering.',
  'import.sex-not-understood': '“{cell}” is not understood as a sex.',
  'import.neutered-not-understood': '“{cell}” is not understood as neutered or not.',
  'import.text-too-long': 'The text “{start}…” is too long for its place; it stands whole in the notes.',
  'import.notes-cut': 'The notes have {length} letters; the first {kept} are kept.',

  'import.chip-not-taken': 'The chip “{cell}” was not taken: {why} It stands in the notes.',
  'import.chip-twice': 'The chip {chip} is on row {row} as well.',
  'import.chip-on-record': 'The chip {chip} belongs to {name} already.',
  'import.weight-without-unit': 'The weight “{cell}” has no unit.',
  'import.weight-two-readings': 'The weight “{cell}” can be read in two ways.',
  'import.weight-not-taken': 'The weight “{cell}” was not taken: {why}',

  'import.field-label': 'Number of the animal',
  'import.field-key': 'Number of the stay',
  'import.field-name': 'Name',
  'import.field-species': 'Species',
  'import.field-sex': 'Sex',
  'import.field-neutered': 'Neutered',
  'import.field-born': 'Born',
  'import.field-age': 'Age',
  'import.field-ageOn': 'Day of the age',
  'import.field-arrived': 'Arrived',
  'import.field-left': 'Left',
  'import.field-leftHow': 'How it left',
  'import.field-returned': 'Came back',
  'import.field-dead': 'Dead',
  'import.field-place': 'Place',
  'import.field-kennel': 'Kennel',
  'import.field-litter': 'Litter',
  'import.field-coat': 'Coat',
  'import.field-mark': 'Mark',
  'import.field-collar': 'Collar',
  'import.field-chip': 'Chip',
  'import.field-weight': 'Weight',
  'import.field-weighedOn': 'Day of weighing',
  'import.field-notes': 'Notes',
} as const satisfies Record<string, string>;
