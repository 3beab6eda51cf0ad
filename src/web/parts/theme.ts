/** Day or night page, per device; until somebody chooses, as the device itself is set. */
export type Theme = 'day' | 'night';

const key = 'roundhand.theme';

export function themeNow(): Theme {
  try {
    const kept = localStorage.getItem(key);
    if (kept === 'day' || kept === 'night') return kept;
  } catch {
    // Without site data the device's own setting decides.
  }
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'night' : 'day';
}

export function showTheme(theme: Theme): void {
  document.documentElement.dataset.theme = theme;
}

export function chooseTheme(theme: Theme): void {
  showTheme(theme);
  try {
    localStorage.setItem(key, theme);
  } catch {
    // Holds until the page is closed.
  }
}
