// Runs inside the page: looks at the card as it was drawn and lists what is wrong with it.
// One self-contained function, since only its text reaches the page.

/**
 * @param {{leastControl: number, leastAnswer: number, leastGap: number, leastText: number, contrastText: number, contrastEdge: number}} limits
 * @param {boolean} reasonMayScroll
 * @returns {string[]}
 */
export function faultsOfCard(limits, reasonMayScroll) {
  const card = document.querySelector(".card");
  if (!card) return ["no card is drawn"];
  const onDial = card.classList.contains("on-dial");
  const all = (selector) => [...card.querySelectorAll(selector)];
  const named = (element) => element.dataset?.key ?? `${element.tagName}.${element.getAttribute("class") ?? ""}`;

  return [...scrolling(), ...cutOff(), ...sizes(), ...gaps(), ...overlaps(), ...textContrast(), ...edgeContrast(), ...words()];

  // Scrolling and clipping

  function scrolling() {
    const still = onDial ? ".show, .ask, .acts, .way-back" : ".acts";
    const moving = [card, ...all(still)].filter(tooFull).map((one) => `${named(one)} scrolls`);
    const reasons = reasonMayScroll ? [] : all(".reason").filter(tooFull).map(() => "the reason scrolls");
    return document.documentElement.scrollWidth > innerWidth ? [...moving, ...reasons, "the page is too wide"] : [...moving, ...reasons];
  }

  function tooFull(one) {
    return one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1;
  }

  function cutOff() {
    return texts().flatMap(({ box, text, element }) => {
      const out = box.left < -0.5 || box.right > innerWidth + 0.5;
      const { top, bottom } = letters(box);
      const under = onDial && !element.closest(".reason") && (top < 0 || bottom > innerHeight);
      const frame = element.closest("button, .watch, .mark, .sheet, .item, .bed")?.getBoundingClientRect();
      const outgrown = frame && (box.left < frame.left || box.right > frame.right || top < frame.top || bottom > frame.bottom);
      return out || under || outgrown ? [`"${text}" is cut off`] : [];
    });
  }

  // Controls

  function controls() {
    return all("button, input:not(.out-of-sight), label.act").filter((one) => one.getClientRects().length > 0);
  }

  function sizes() {
    const small = controls().filter((one) => least(one) < limits.leastControl - 0.5);
    const low = all("button.answer, button.stop").filter((one) => one.getBoundingClientRect().height < limits.leastAnswer - 0.5);
    return [...small.map((one) => `${named(one)} is only ${least(one).toFixed(0)} px`), ...low.map((one) => `${named(one)} is too low`)];
  }

  function least(one) {
    const { width, height } = one.getBoundingClientRect();
    return Math.min(width, height);
  }

  function gaps() {
    const boxes = controls().map((one) => ({ name: named(one), box: seen(one) })).filter(({ box }) => box);
    return pairs(boxes).flatMap(([a, b]) => {
      const apart = Math.max(b.box.left - a.box.right, a.box.left - b.box.right, b.box.top - a.box.bottom, a.box.top - b.box.bottom);
      return apart < limits.leastGap - 0.6 ? [`${a.name} and ${b.name} are ${apart.toFixed(1)} px apart`] : [];
    });
  }

  /** The part of a control that its scrolling surroundings let through. */
  function seen(one) {
    const box = one.getBoundingClientRect();
    const around = one.closest(".free .show, .free main")?.getBoundingClientRect();
    const mainBox = one.closest(".free main")?.getBoundingClientRect();
    const frame = mainBox && mainBox.height > 0 ? mainBox : around;
    if (!frame) return box;
    const [top, bottom] = [Math.max(box.top, frame.top), Math.min(box.bottom, frame.bottom)];
    return bottom > top ? { left: box.left, right: box.right, top, bottom } : null;
  }

  // Text

  function texts() {
    const walker = document.createTreeWalker(card, NodeFilter.SHOW_TEXT);
    const found = [];
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node.parentElement;
      if (!node.data.trim() || getComputedStyle(element).visibility === "hidden") continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) found.push({ box, element, text: node.data.trim() });
    }
    return found;
  }

  function overlaps() {
    const shown = texts().filter(({ element }) => !element.closest(".reason")).map((one) => ({ ...one, box: letters(one.box) }));
    return pairs(shown).flatMap(([a, b]) => {
      const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
      const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
      const scrolledAway = !onDial && (a.element.closest("main") === null) !== (b.element.closest("main") === null);
      const sameText = a.text === b.text && a.element === b.element;
      return wide > 1 && high > 1 && !sameText && !scrolledAway ? [`"${a.text}" lies on "${b.text}"`] : [];
    });
  }

  /** Line boxes are taller than the letters in them. */
  function letters({ left, right, top, bottom, height }) {
    return { left, right, top: top + 0.2 * height, bottom: bottom - 0.2 * height };
  }

  function words() {
    if (!onDial) return [];
    const counted = all(".instruction, .question, .reason, .watch .label").map((one) => one.textContent).join(" ");
    const count = counted.split(/\s+/).filter((word) => /[\p{L}]/u.test(word)).length;
    return count > 40 ? [`${count} words on a dial card`] : [];
  }

  // Contrast, by the formula of WCAG 2.2 (relative luminance)

  function textContrast() {
    return texts().flatMap(({ element, text }) => {
      const style = getComputedStyle(element);
      const ratio = contrast(colour(style.color), ground(element));
      const size = Number.parseFloat(style.fontSize);
      const small = size < limits.leastText ? [`"${text}" is ${size} px`] : [];
      return ratio < limits.contrastText ? [...small, `"${text}" has contrast ${ratio.toFixed(1)}`] : small;
    });
  }

  function edgeContrast() {
    const edged = controls().map((one) => [one, edge(one)]);
    const drawn = all(".axis, .positions, circle.held, polyline, line.set, line.threshold, .bracket line, .rail .now, .fill").filter((one) => one.getClientRects().length > 0).map((one) => [one, ink(one)]);
    return [...edged, ...drawn].flatMap(([one, own]) => {
      const ratio = contrast(own, ground(one.parentElement));
      return ratio < limits.contrastEdge ? [`the edge of ${named(one)} has contrast ${ratio.toFixed(1)}`] : [];
    });
  }

  /** What sets a control off: its border, or its filling where that is stronger. */
  function edge(one) {
    const style = getComputedStyle(one);
    const outside = ground(one.parentElement);
    const choices = [colour(style.borderTopColor), over(colour(style.backgroundColor), outside)];
    return choices.reduce((best, next) => (contrast(next, outside) > contrast(best, outside) ? next : best));
  }

  function ink(one) {
    const style = getComputedStyle(one);
    if (!(one instanceof SVGElement)) return colour(style.backgroundColor);
    return colour(style.stroke === "none" ? style.fill : style.stroke);
  }

  function ground(element) {
    const layers = [];
    for (let at = element; at; at = at.parentElement) layers.unshift(colour(getComputedStyle(at).backgroundColor));
    return layers.reduce((below, layer) => over(layer, below), [255, 255, 255, 1]);
  }

  function over([r, g, b, a], below) {
    return [r, g, b].map((channel, index) => channel * a + below[index] * (1 - a)).concat(1);
  }

  function colour(text) {
    const numbers = text.match(/[\d.]+/g)?.map(Number) ?? [0, 0, 0, 0];
    return numbers.length === 3 ? [...numbers, 1] : numbers.slice(0, 4);
  }

  function contrast(a, b) {
    const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
    return (light + 0.05) / (dark + 0.05);
  }

  function luminance(channels) {
    const [r, g, b] = channels.slice(0, 3).map((channel) => {
      const share = channel / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  }

  function pairs(list) {
    return list.flatMap((one, index) => list.slice(index + 1).map((other) => [one, other]));
  }
}
