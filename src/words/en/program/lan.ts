/** Sentences of https on the shelter's network; steps stand one on a line. */
export const lan = {
  'lan.keys.folder-open':
    'The folder of keys {folder} is open to others (rights {mode}), so the keys may be known. Make it yours alone (chmod 700) after thinking of who could have read it; to have new keys made, take the folder away.',
  'lan.keys.file-open':
    'The key file {file} can be read by others (rights {mode}), so the key may be known. Make it yours alone (chmod 600), or have a new one made.',
  'lan.keys.failed': 'The keys in {file} could not be read or written ({detail}).',
  'lan.name-malformed':
    '“{name}” is no name for a server on a network: letters, figures and hyphens in two parts or more, like roundhand.local, or an address like 192.168.1.24.',
  'lan.name-taken':
    'The name {name} could not be told on this network: another computer has it, or the network lets no names be told. Use the address, or start with another --name.',
  'lan.address-new':
    'This computer has an address that its authority must not vouch for ({addresses}): by it phones refuse the server. Use the name; or take the folder {folder} away, start again, and have every phone trust the new authority.',
  'lan.authority-over':
    'The authority of this server is nearly over and a new one was made: every phone has to trust it, and the old one can be removed there.',
  'lan.authority-renamed':
    'The server is called {name} now, which its authority must not vouch for. A new one was made: every phone has to trust it, and the old one can be removed there.',
  'lan.authority-moved':
    'The address of the server is another one, which its authority must not vouch for. A new one was made: every phone has to trust it, and the old one can be removed there.',
  'lan.by-address':
    'By an address alone no passkeys are offered: browsers bind them to a name. Start with a name (--name) to have them.',
  'lan.given.together': 'A certificate of your own takes both --cert and --key, and goes with --lan; so does --name.',
  'lan.given.missing': 'There is no key file {file}.',
  'lan.given.unreadable': 'The certificate {file} cannot be read ({detail}).',
  'lan.given.other-key': 'The key {key} does not belong to the certificate {certificate}.',
  'lan.given.other-name': 'The certificate {file} is not for {name}.',
  'lan.given.over': 'The certificate {file} is over. Have it renewed, then start again.',
  'lan.given.soon-over':
    'The certificate {file} is over in {days, plural, one {# day} other {# days}}. Have it renewed; the new one is taken up within an hour.',

  'lan.also': 'Also at {urls}',
  'lan.scan': 'A phone has to trust this server once. Scan this with its camera, or type {url}',
  'lan.fingerprint': 'The phone must show the same figures for it (SHA-256): {fingerprint}',

  'lan.page.title': 'Trust this shelter’s server',
  'lan.page.why':
    'Over https a phone opens the round without the network, keeps its screen lit and may let the page use its camera. For that it has to know this server: fetch its certificate, look at the figures, and put it among the authorities of the phone.',
  'lan.page.fetch': 'Fetch the certificate',
  'lan.page.compare':
    'This page came without https, so anybody on this network could have changed it. Compare: the phone and the computer of the server must show the same figures (SHA-256 fingerprint). If they differ, stop and tell whoever runs the server.',
  'lan.page.may':
    'It can vouch for the names and addresses of this server alone, and for no other site: where an app or a system does not keep to that, do not use it.',
  'lan.page.untried': 'These steps have not been tried on a real phone. Menus differ between makers and versions.',
  'lan.page.trust': 'Trust it',
  'lan.page.remove': 'Take it out again',
  'lan.page.then': 'Then open Roundhand',
  'lan.page.by-address':
    'By an address no passkeys are offered: browsers bind them to a name. Use the name where the phone finds it.',
  'lan.page.next': 'For the next phone',

  'lan.android': 'Android phone or tablet',
  'lan.android.trust':
    'Fetch the certificate with the button above.\nOpen Settings and look for “CA certificate” (under Security, More security settings, Encryption and credentials, Install a certificate).\nRead the warning, choose Install anyway, and pick the file that was fetched.\nLook it up under Trusted credentials, User, and compare its SHA-256 fingerprint.\nOpen the address of Roundhand below. Older Android versions do not find names that end in .local: use the address in figures there.',
  'lan.android.remove':
    'Open Settings and look for “Trusted credentials” (under Encryption and credentials).\nChoose User, then the entry that begins with Roundhand.\nChoose Uninstall.',
  'lan.iphone': 'iPhone or iPad',
  'lan.iphone.trust':
    'Open this page in Safari, fetch the certificate with the button above and allow it.\nOpen Settings, General, VPN & Device Management, choose the profile that begins with Roundhand, compare its figures under More Details, and install it.\nOpen Settings, General, About, Certificate Trust Settings, and switch full trust on for it.\nOpen the address of Roundhand below.',
  'lan.iphone.remove':
    'Open Settings, General, VPN & Device Management.\nChoose the profile that begins with Roundhand.\nChoose Remove Profile.',
  'lan.windows': 'Windows',
  'lan.windows.trust':
    'Fetch the certificate with the button above and open the file.\nUnder Details compare the fingerprint. Windows shows that by SHA-1 there; by SHA-256 it is told by: certutil -hashfile FILE SHA256\nChoose Install Certificate, Current User, then “Place all certificates in the following store”, and there Trusted Root Certification Authorities.\nConfirm the question, and start the browser again.',
  'lan.windows.remove':
    'Run certmgr.msc.\nOpen Trusted Root Certification Authorities, Certificates.\nDelete the entry that begins with Roundhand.',
  'lan.mac': 'Mac',
  'lan.mac.trust':
    'Fetch the certificate with the button above and open the file: it is added to the login keychain of Keychain Access.\nOpen it there, compare its SHA-256 figures under Details.\nUnder Trust choose Always Trust for Secure Sockets Layer (SSL), close it and give your password.',
  'lan.mac.remove': 'Open Keychain Access, login, Certificates.\nDelete the entry that begins with Roundhand.',
  'lan.linux': 'Linux, with Chromium or a browser made from it',
  'lan.linux.trust':
    'Fetch the certificate with the button above.\nOpen chrome://certificate-manager in the browser, and there Custom, Installed by you, Trusted certificates.\nChoose Import, pick the file, open the entry and compare its SHA-256 figures.',
  'lan.linux.remove':
    'Open chrome://certificate-manager, Custom, Installed by you.\nDelete the entry that begins with Roundhand.',
  'lan.firefox': 'Firefox on a computer, which has a store of its own',
  'lan.firefox.trust':
    'Fetch the certificate with the button above. Where Firefox asks at once, choose View, compare the SHA-256 figures, and tick “Trust this CA to identify websites”.\nWhere it does not ask: open Settings, Privacy & Security, Certificates, View Certificates, Authorities, Import, and pick the file.',
  'lan.firefox.remove':
    'Open Settings, Privacy & Security, Certificates, View Certificates, Authorities.\nChoose the entry that begins with Roundhand.\nChoose Delete or Distrust.',
} as const satisfies Record<string, string>;
