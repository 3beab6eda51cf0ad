import './no-eval.js';
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-400.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-600.css';
import './style/tokens.css';
import './style/base.css';
import './style/parts.css';
import './style/forms.css';
import './style/shell.css';
import './style/desk.css';
import './style/print.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.js';
import { aheadOfFirstPage } from './first-page.js';
import { showTheme, themeNow } from './parts/theme.js';
import { catchScans } from './scan/catcher.js';
import { fetchTheRest } from './shell/when-opened.js';
import { fetchMissingWords } from './shell/words.js';
import { beginExchange } from './store/begin-exchange.js';
import { openHere } from './store/here.js';
import { watchVersion } from './store/version.js';

fetchMissingWords();
showTheme(themeNow());
const root = document.getElementById('root');
if (root === null) throw new Error('the page has no root');
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
void openHere(aheadOfFirstPage).then(beginExchange);
watchVersion();
catchScans();
fetchTheRest();
