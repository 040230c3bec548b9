// Finds what can be tapped or typed into by the name the fitter reads.
// Called as find(kind, name, nth); kind is 'tap', 'type' or 'choose'.
(kind, name, nth) => {
  const clean = (text) => (text || '').replace(/\s+/g, ' ').trim();
  const lines = (text) => (text || '').split('\n').map(clean).filter(Boolean);
  const shown = (el) => el.checkVisibility({ visibilityProperty: true, opacityProperty: true })
    && !el.closest('[aria-hidden=true], [inert]');
  const toggle = (el) => el.matches('input[type=checkbox], input[type=radio]');
  const selectors = {
    tap: 'button, a[href], summary, [role=button], [role=link], [role=tab], [role=radio], ' +
      '[role=switch], [role=option], input[type=checkbox], input[type=radio], ' +
      'input[type=submit], input[type=button]',
    type: 'input:not([type=checkbox]):not([type=radio]):not([type=submit]):not([type=button]), textarea',
    choose: 'select',
  };
  // Every text by which an element may be called, its accessible name first.
  const names = (el) => {
    const by = (el.getAttribute('aria-labelledby') || '').split(/\s+/)
      .map((id) => id && document.getElementById(id)).filter(Boolean).map((l) => l.innerText).join(' ');
    const labels = [...(el.labels || [])].map((label) => label.innerText).join('\n');
    const own = kind === 'tap' ? el.innerText || el.value : '';
    return [by, el.getAttribute('aria-label'), labels, own, el.title].filter(Boolean);
  };
  // A hidden checkbox is tapped on its label.
  const target = (el) => (toggle(el) && el.labels && el.labels[0]) || el;
  const all = [...document.querySelectorAll(selectors[kind])].filter((el) => shown(target(el)));
  const levels = [
    (el) => names(el).some((text) => clean(text) === name),
    (el) => names(el).some((text) => lines(text).includes(name)),
    (el) => names(el).some((text) => clean(text).startsWith(name)),
  ];
  const hits = levels.map((level) => all.filter(level)).find((found) => found.length) || [];
  const known = () => all.map((el) => clean(names(el)[0])).join(' | ');
  if (hits.length <= (nth || 0)) return { trouble: `nothing called '${name}' here; there are: ${known()}` };
  if (nth === null && hits.length > 1) {
    return { trouble: `${hits.length} are called '${name}': say which` };
  }
  const el = hits[nth || 0];
  const spot = target(el);
  if (el.disabled || el.getAttribute('aria-disabled') === 'true') return { trouble: `'${name}' is disabled` };

  const look = () => {
    const box = spot.getBoundingClientRect();
    const left = Math.max(box.left, 0), right = Math.min(box.right, innerWidth);
    const top = Math.max(box.top, 0), bottom = Math.min(box.bottom, innerHeight);
    const x = (left + right) / 2, y = (top + bottom) / 2;
    const hit = left < right && top < bottom ? document.elementFromPoint(x, y) : null;
    const whole = box.top >= 0 && box.bottom <= innerHeight
      && box.left >= -0.5 && box.right <= innerWidth + 0.5;
    const free = hit && (spot.contains(hit) || hit.closest('label') === spot || (el.labels && [...el.labels].includes(hit.closest('label'))));
    return { box, x, y, hit, free, whole };
  };
  let seen = look();
  if (!seen.free || !seen.whole) {
    spot.scrollIntoView({ block: 'center', behavior: 'instant' });
    seen = look();
  }
  if (seen.box.left < -0.5 || seen.box.right > innerWidth + 0.5) {
    return { trouble: `'${name}' sticks out of the screen sideways` };
  }
  if (!seen.free) {
    const over = seen.hit ? `<${seen.hit.tagName.toLowerCase()} class="${seen.hit.className}">` : 'nothing there';
    return { trouble: `'${name}' cannot be touched: ${over}` };
  }
  const { width, height } = seen.box;
  if (height < 47.5 || width < 47.5) {
    return { fault: `'${name}' is ${width.toFixed(1)} x ${height.toFixed(1)} px, a finger needs 48` };
  }
  window.rakelineFound = el;
  return { x: seen.x, y: seen.y };
}
