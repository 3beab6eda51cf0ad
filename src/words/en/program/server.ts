/** Sentences of the server, its store and its start. `detail` is what the machine said, for whoever is asked for help. */
export const server = {
  // The place where the records are kept. One sentence for each code of src/log/store.ts.
  'server.store.folder-missing': 'The data folder {folder} is not there and cannot be made ({detail}).',
  'server.store.folder-not-writable':
    'Nothing can be written to {file} ({detail}). Allow this user to write there, or choose another folder.',
  'server.store.network-share':
    'The data folder {folder} is on another computer ({type}). Two computers writing to it would damage the records: choose a folder on this computer.',
  'server.store.not-a-store':
    'The file {file} is not a record file of this program, or its beginning is damaged. It has been left as it is; put a backup in its place or choose another folder.',
  'server.store.damaged':
    'The record file {file} is damaged ({detail}). It has been left as it is; put the last backup in its place.',
  'server.store.newer-version':
    'These records were last kept by a newer version of the program (form {store}, this one knows {program}). Nothing was changed; start the newer version.',
  'server.store.changed-by-hand':
    'Step {number} ({name}) of the record file is not the one this program knows. Nothing was changed; put a backup in its place.',
  'server.store.busy':
    'Another program is holding the record file {file}. Close it and try again; nothing was changed.',
  'server.store.full': 'The disk is full: nothing more can be kept in {file}. Make room and try again.',
  'server.store.too-large':
    'The record file {file} is as long as this system lets a file be: nothing more can be kept in it. Raise that limit and try again.',
  'server.store.gone':
    'The record file {file} is not there any more, or another one lies in its place. Nothing is read or kept until it is back as it was. To go on from a backup, stop the program, put the backup there and start again.',
  'server.store.failed': 'The record file {file} could not be read or written ({detail}).',

  'server.salvage.nothing-there': 'There is no record file {file} to save anything from.',
  'server.salvage.target-taken':
    'There are records in {file} already. They were left alone; save into a folder of its own.',
  'server.salvage.nothing-read': 'No record can be read out of {file} any more. Nothing was made.',
  'server.export.line-wrong':
    'The line of record {seq} is not there or not as it was exported: its hash does not hold. Nothing was made; export again, or save what can be read with salvage.',

  // What was found wrong with the records.
  'server.verify.chain-broken':
    'The chain breaks at record {seq}: it or the one before was changed or is missing. Put a backup in its place, or save what can be read with salvage.',
  'server.verify.unreadable': 'Record {seq} cannot be read: {why}',
  'server.verify.engine':
    'The record file itself is damaged: {detail}. Put the last backup in its place, or save what can be read with salvage.',
  'server.verify.table':
    'The table {table} differs from the records: {missing} missing, {extra} too many, {different} different. Starting the server again does not mend it; put a backup in its place or have it rebuilt.',
  'server.verify.more':
    '{count} more things are wrong with the records; verify on the computer of the server names them.',
  'server.in-force.changed':
    'The record in place {seq}, about {what}, is not as it was written down, and is not used. Put the last backup in its place, or save what can be read with salvage.',
  'server.in-force.unreadable': 'The record in place {seq}, about {what}, cannot be read any more. {why}',
  'server.in-force.end':
    'The records do not end where it was noted that they end. Put the last backup in their place, or save what can be read with salvage.',
  'server.in-force.shelter': 'the shelter',
  'server.in-force.section': 'the section {id}',
  'server.in-force.person': 'the person {id}',
  'server.in-force.document': 'the document {id}',

  // Starting.
  'server.start.port-in-use': 'Port {port} is in use by another program. Close it, or start with another port.',
  'server.start.port-not-allowed': 'This user may not open port {port}. Choose a port above 1023.',
  'server.start.host-unknown': 'This computer has no address {host} to listen on.',
  'server.start.failed': 'The server could not start ({detail}).',
  'server.start.listening': 'Roundhand is at {url}',

  // What the server answers instead of what was asked for: one for each code of src/api/problems.ts.
  'server.problem.request-malformed': 'The request could not be read.',
  'server.problem.request-too-large':
    'That is too much in one go: at most {most} MB. Send it in smaller parts; nothing was kept of it.',
  'server.problem.not-json': 'The request must be JSON.',
  'server.problem.no-such-page': 'There is nothing at this address.',
  'server.problem.from-another-site': 'A page of another site asked for this; it was not done.',
  'server.problem.name-unknown':
    'This server does not go by the name {name}. Use its address, or start it with that name.',
  'server.problem.person-missing': 'Nobody is signed in on this device. Sign in first.',
  'server.problem.person-unknown': 'Nobody who works at this shelter is known under this name.',
  'server.problem.sign-in-wrong': 'The name and what was typed do not belong together.',
  'server.problem.sign-in-waits':
    'There were too many wrong tries. The next one is taken in {seconds, plural, one {# second} other {# seconds}}.',
  'server.problem.code-wrong': 'This code is not known, was used already, or has run out. Ask for another one.',
  'server.problem.secret-weak': 'This is not taken as a password or PIN: choose another one.',
  'server.problem.device-unknown': 'There is no such device.',
  'server.problem.device-not-enrolled':
    'A PIN works only on a device that the shelter has enrolled. Ask the desk to enrol this one, or sign in by a password.',
  'server.problem.device-not-proven':
    'This device is known here, but its browser has forgotten how to prove which one it is. Ask the desk for a code and enrol it anew.',
  'server.problem.device-revoked':
    'This device was revoked. What was written on it is kept apart until somebody at the desk has looked at it.',
  'server.problem.last-administrator': 'One administrator has to stay. Make somebody else one first.',
  'server.problem.person-not-active': '{name} is not active at this shelter any more.',
  'server.problem.role-not-allowed': '{name} may not do this: it takes the role {roles}.',
  'server.problem.person-at-work':
    '{name} works here. Record first that {name} works here no longer; only then can the name be erased.',
  'server.problem.no-shelter-yet': 'No shelter has been set up here yet.',
  'server.problem.records-damaged':
    'There are records here, and the one that says which shelter they belong to cannot be read any more. Put the last backup in its place; nothing was changed.',
  'server.problem.document-damaged': 'A document in force cannot be read any more.',
  'server.problem.shelter-exists': 'There is a shelter here already: {name}. It was left as it is.',
  'server.problem.setup-needs-supervisor':
    'At least one person must be a supervisor or medical staff, and be the one who sets the shelter up.',
  'server.problem.demo-not-offered': 'This server does not offer the invented shelter.',
  'server.problem.backup-not-offered': 'This store cannot be copied from here.',
  'server.problem.backup-not-whole':
    'The copy was not whole and has been thrown away; the records themselves were not touched.',
  'server.problem.head-not-offered': 'This server signs no heads.',
  'server.problem.head-not-signed': 'The head of the records could not be signed.',
  'server.problem.another-history':
    'These records are not the ones this device has read from: they were put back from an older copy. The device sends what is missing here.',
  'server.problem.record-malformed': 'This record could not be read and stays on the device.',
  'server.problem.record-conflict':
    'Another record with the same number is in the log and counts. This one stays on the device: look at both and correct what is wrong.',
  'server.problem.record-of-another-shelter': 'This record belongs to another shelter.',
  'server.problem.record-by-unknown': 'Nobody of this shelter is known as the person who made this record.',
  'server.problem.record-kept-apart': 'This record is kept apart until somebody at the desk has judged it.',
  'server.problem.record-hand-away': 'This record waits until whoever wrote it signs in on this device.',
  'server.problem.record-not-fresh': 'This record waits for the password of whoever signed it.',
  'server.problem.record-not-allowed':
    '{name} may not record this: it takes {roles}. Somebody else has to, or the desk changes the role.',
  'server.problem.record-corrects-unknown':
    'What this record takes back has not come in. Try again when the other record is here.',
  'server.problem.photo-unreadable': 'This photo cannot be read. Take it again, as JPEG or PNG.',
  'server.problem.photo-too-large':
    'This photo is too large: at most {megabytes} MB and {megapixels} million pixels. Choose a smaller size in the camera, or take a screenshot of it.',
  'server.problem.photo-not-plain':
    'This picture was not taken in: it is not what its name says, is larger than a picture kept here, or carries more than the picture (such as the place where it was taken). Take the photo again.',
  'server.problem.photo-missing':
    'This picture is not here. It may still be on the device that took it; it comes when that device meets the server.',
  'server.problem.photo-damaged':
    'This picture is damaged where it lies. Put the folder of the pictures back from the last backup, or take the photo again.',
  'server.problem.store-busy': 'The records are being used by another program just now. Nothing was kept; try again.',
  'server.problem.store-full':
    'The disk of the server is full. Nothing was kept; the device keeps it until there is room.',
  'server.problem.store-too-large':
    'The record file of the server may not grow any further. Nothing was kept; the device keeps it until that limit is raised.',
  'server.problem.store-gone':
    'The records of the server are not where they were, so nothing is read or kept. The device keeps everything until they are back; tell whoever runs the server.',
  'server.problem.store-trouble': 'The server cannot get at its records.',
  'server.problem.unexpected': 'Something went wrong on the server. What was sent stays on the device.',

  'server.photo.heic':
    'This photo is in a form (HEIC) that cannot be read here. Set the camera to its most compatible form (JPEG) and take it again, or take a screenshot of it.',
  'server.photo.other-form':
    'Pictures of this form are not read here. Save it as JPEG or PNG, or take a screenshot of it.',
  'server.photo.no-picture': 'This file is no picture. Choose a photo, as JPEG, PNG or WebP.',
  'server.photo.broken': 'This photo is broken or cut short. Send it again, or take another one.',

  'server.detail': 'The request could not be read: {detail}.',
  'server.licensed': 'medical staff with a licence on record',
  'server.clock-back':
    'The clock of the server lies {behind} behind its own records: it was set back, or it was fast before. Set it right. Until then what comes in counts as come in at {at}, “today” is that day, and no device’s clock is compared with it.',
  'server.clock-fast':
    'The clock of this device is {minutes, plural, one {# minute} other {# minutes}} fast against the server.',
  'server.clock-slow':
    'The clock of this device is {minutes, plural, one {# minute} other {# minutes}} slow against the server.',
} as const satisfies Record<string, string>;
