/**
 * The page on plain http that brings the camp's certificate to a tablet. No script: whoever stands in between could
 * change one. The steps on Android and iPad are written from memory; no real tablet was at hand.
 */
export function installerPage(address: string, fingerprint: string): string {
  // Four lines of eight: to be compared by eye.
  const lines = fingerprint.match(/(?:[0-9A-F]{2}:?){8}/g) ?? [fingerprint];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Firnbook: the camp's certificate</title>
<link rel="stylesheet" href="/install.css">
</head>
<body>
<main>
<h1>The camp's certificate</h1>
<p>Install it once on each tablet and phone, before departure. Without it the book does not start when the camp
computer is off, and nothing can be paired.</p>
<p>It lets this camp computer be recognised. It is made so that it can not speak for any site of the world: only for
this camp's own name and for private network addresses.</p>
<p><a class="act" href="/firnbook-camp.crt">1. Get the certificate</a></p>
<h2>2. Install it</h2>
<section>
<h3>Android</h3>
<ol>
<li>The tablet keeps it as a file: <b>firnbook-camp.crt</b> among the downloads.</li>
<li>Open Settings and search for <b>CA certificate</b> (under Security, Encryption and credentials, Install a
certificate).</li>
<li>The tablet warns that somebody could read along; that is meant for certificates of strangers. Choose <b>Install
anyway</b>, then the file.</li>
<li>A tablet that has no screen lock asks for one first.</li>
</ol>
</section>
<section>
<h3>iPad and iPhone</h3>
<ol>
<li>Use Safari. It says that a <b>profile</b> was loaded.</li>
<li>Open Settings: <b>Profile Downloaded</b> stands near the top. Install it.</li>
<li>Then Settings, General, About, <b>Certificate Trust Settings</b> (at the very bottom): turn on <b>full trust</b> for
this camp. Without this switch the certificate is there and does nothing.</li>
</ol>
</section>
<section>
<h3>Computers</h3>
<p>Import the file among the authorities, in the settings of the browser or of the system, for web sites.</p>
</section>
<p class="hint">The names of menus are written down from memory and differ between makers and versions; no tablet was at
hand when this was written. Managed tablets get the certificate from whoever manages them.</p>
<h2>3. Compare</h2>
<p>The tablet shows a fingerprint (SHA-256) of the certificate. It must be the one on the camp computer's own screen:</p>
<p class="fingerprint">${lines.join('<br>')}</p>
<h2>4. Pair</h2>
<p>At the camp computer open Devices, and scan the second code with this tablet.</p>
<p><a class="act" href="${address}/pair">Or type the code here</a></p>
<p>If the tablet then warns about the certificate, do not go on past the warning: go back to step 2. If it says that the
certificate is not valid yet, or no more, set the tablet's clock.</p>
</main>
</body>
</html>
`;
}

/** Black on white, big targets: it is read in daylight, once. */
export const installerStyle = `
:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #111; font: 1.125rem/1.5 system-ui, sans-serif; }
main { max-width: 40rem; margin: 0 auto; padding: 1rem 1rem 4rem; }
h1 { font-size: 1.75rem; }
h2 { margin-top: 2rem; font-size: 1.375rem; }
section { margin: 1rem 0; padding: 0 1rem; border: 2px solid #111; border-radius: 0.5rem; }
li { margin: 0.5rem 0; }
.act { display: block; padding: 1.25rem; border-radius: 0.5rem; background: #111; color: #fff; font-weight: 700;
  text-align: center; }
.fingerprint { font: 1rem/1.6 ui-monospace, monospace; }
.hint { color: #333; }
`;
