// What of the page cannot be read in daylight or touched with gloves, as
// sentences. Called as daylight(width) with the whole page in the viewport.
(width) => {
  const faults = [];
  const shown = (el) => el.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const parse = (text) => {
    const found = /^rgba?\(([^)]*)\)$/.exec(text);
    if (!found) return null;
    const [r, g, b, a = 1] = found[1].split(/[\s,/]+/).map(Number);
    return [r, g, b, a];
  };
  const over = (top, under) => top.slice(0, 3)
    .map((channel, i) => channel * top[3] + under[i] * (1 - top[3])).concat(1);
  // Relative luminance and contrast ratio, W3C WCAG 2.2.
  const luminance = (colour) => {
    const [r, g, b] = colour.slice(0, 3).map((channel) => {
      const c = channel / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a, b) => {
    const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
    return (light + 0.05) / (dark + 0.05);
  };
  const differing = (colours) => [...new Map(colours.map((c) => [c.join(), c])).values()];
  // All grounds that may lie behind a text: plain ones, and each colour of a pattern.
  const grounds = (el) => {
    const chain = [];
    for (let e = el; e; e = e.parentElement) chain.unshift(e);
    let found = [[255, 255, 255, 1]];
    for (const e of chain) {
      const style = getComputedStyle(e);
      const plain = parse(style.backgroundColor);
      if (plain) found = found.map((ground) => over(plain, ground));
      const pattern = [...style.backgroundImage.matchAll(/rgba?\([^)]*\)/g)].map((m) => parse(m[0]));
      found = found.concat(found.flatMap((ground) => pattern.map((p) => over(p, ground))));
      found = differing(found);
    }
    return found;
  };
  // What of a drawing is filled behind the middle of a text.
  const filled = (text, box) => {
    const at = document.elementsFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    const under = at.filter((e) => e !== text && text.ownerSVGElement.contains(e) && e !== text.ownerSVGElement
      && e.localName !== 'text');
    return under.map((e) => {
      const { fill, fillOpacity } = getComputedStyle(e);
      const colour = parse(fill);
      return colour && [...colour.slice(0, 3), colour[3] * Number(fillOpacity)];
    }).filter(Boolean);
  };
  const called = (el, text) => `'${text.replace(/\s+/g, ' ').trim().slice(0, 40)}' (${el.localName}${
    el.getAttribute('class') ? '.' + el.getAttribute('class').trim().replace(/\s+/g, '.') : ''})`;

  const check = (el, text, colour, behind) => {
    const needed = el.closest('.reading, .marks .big, .verdict') ? 7 : 4.5;
    const worst = Math.min(...behind.map((ground) => contrast(over(colour, ground), ground)));
    if (worst < needed) {
      faults.push(`${called(el, text)}: contrast ${worst.toFixed(2)}, ${needed} needed`);
    }
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  while (walker.nextNode()) {
    const node = walker.currentNode, el = node.parentElement;
    if (!node.data.trim() || el.matches('script, style, noscript') || !shown(el)) continue;
    if (el.closest('.offscreen')) continue;
    range.selectNodeContents(node);
    const box = range.getBoundingClientRect();
    if (box.width < 1 || box.height < 1) continue;
    const style = getComputedStyle(el);
    // A text without words shows its key.
    const key = node.data.match(/\b(?:ring|sheet|step|mark-out|half|faces|job|motion|storage|still|caution|drawing|budget|kit|tape|refused|record)-[a-z0-9]+(-[a-z0-9]+)+\b/);
    if (key) faults.push(`${called(el, node.data)}: '${key[0]}' has no words`);
    if (el.namespaceURI.endsWith('svg')) {
      let behind = grounds(el.ownerSVGElement);
      for (const fill of filled(el, box).reverse()) behind = behind.map((ground) => over(fill, ground));
      check(el, node.data, parse(style.fill), behind);
    } else {
      check(el, node.data, parse(style.color), grounds(el));
      if (parseFloat(style.fontSize) < 14) faults.push(`${called(el, node.data)}: letters of ${style.fontSize}`);
    }
  }

  const touched = 'button, a[href], summary, input, select, textarea, [role=button]';
  for (const el of document.querySelectorAll(touched)) {
    if (!shown(el)) continue;
    const box = el.getBoundingClientRect();
    const name = (el.getAttribute('aria-label') || el.innerText || '').trim();
    const words = called(el, name || el.id);
    const least = el.matches('.at-car') ? 72 : 48;
    if (box.height < least - 0.5 || box.width < 47.5) {
      faults.push(`${words}: ${box.width.toFixed(0)} x ${box.height.toFixed(0)} px, ${least} needed`);
    }
    if (el.matches('input, select, textarea')) {
      if (!(el.labels && el.labels.length) && !name) faults.push(`${words}: no label`);
      // A slider shows no text of its own.
      if (el.type !== 'range') check(el, el.value, parse(getComputedStyle(el).color), grounds(el));
    } else {
      if (!name) faults.push(`${words}: no name`);
      if (el.scrollWidth > el.clientWidth + 1) faults.push(`${words}: its words do not fit`);
    }
  }
  for (const el of document.querySelectorAll('svg[role=img], img')) {
    if (shown(el) && !(el.getAttribute('aria-label') || el.alt)) faults.push('a picture without words');
  }
  if (!document.documentElement.lang) faults.push('the page names no language');
  if (document.documentElement.scrollWidth > width) {
    faults.push(`the page is ${document.documentElement.scrollWidth} px wide on a screen of ${width}`);
  }
  return faults;
}
