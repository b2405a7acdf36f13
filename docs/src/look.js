// The look that this device shows everywhere, and keys for what is wider than the window.
const place = 'firnbook.look';
const root = document.documentElement;
const take = () => {
  root.dataset.theme = localStorage.getItem(place) ?? 'standard';
};
take();
addEventListener('storage', take);
addEventListener('pageshow', take);

/** What can be scrolled sideways must be reachable by Tab. */
const reach = () => {
  for (const one of document.querySelectorAll('.scroll, .equation, pre')) {
    if (one.scrollWidth > one.clientWidth + 1) one.tabIndex = 0;
    else one.removeAttribute('tabindex');
  }
};
addEventListener('DOMContentLoaded', reach);
addEventListener('load', reach);
addEventListener('resize', reach);
document.fonts.ready.then(reach);
