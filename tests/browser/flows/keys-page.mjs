// Runs inside the page: what has the focus, and whether it is seen.
// Self-contained functions, since only their text reaches the page.

/** Keeps each key after which the focus was on nothing: several may be pressed between two looks. */
export function watchFocus() {
  window.fallen = [];
  addEventListener("keyup", ({ key }) => document.activeElement === document.body && window.fallen.push(key), true);
}

/**
 * @param {string} wanted a CSS selector
 * @returns {{on: string, inside: boolean, fallen: string[], there: boolean, stops: number, types: boolean, onGlass: boolean, contrast: number}}
 */
export function focusOnCard(wanted) {
  const on = document.activeElement;
  const card = document.getElementById("card");
  const { left, right, top, bottom } = on.getBoundingClientRect();
  return {
    on: on.dataset.key || on.id || on.className || on.tagName,
    inside: on !== card && card.contains(on),
    fallen: window.fallen,
    there: on.matches(wanted),
    stops: stopsTo(document.querySelector(wanted)),
    types: on.matches("input, textarea"),
    onGlass: left >= 0 && top >= 0 && right <= innerWidth && bottom <= innerHeight,
    contrast: Math.max(...[undefined, "::after"].map(ringContrast)),
  };

  /** So many times Tab, if the order is the document's. */
  function stopsTo(place) {
    const all = [...document.querySelectorAll("button, input, textarea, [tabindex]")];
    const stops = all.filter((one) => one.tabIndex >= 0 && one.getClientRects().length > 0);
    const follows = (one) => on !== one && on.compareDocumentPosition(one) & Node.DOCUMENT_POSITION_FOLLOWING;
    const ahead = stops.filter(follows);
    return (ahead.includes(place) ? ahead : [...ahead, ...stops]).indexOf(place) + 1;
  }

  /** Of the line around it with what lies behind that; 1 where there is no line. */
  function ringContrast(pseudo) {
    const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(on, pseudo);
    if (outlineStyle !== "solid" || Number.parseFloat(outlineWidth) < 2) return 1;
    const [light, dark] = [outlineColor, groundOf(on.parentElement)].map(luminance).sort((a, b) => b - a);
    return (light + 0.05) / (dark + 0.05);
  }

  function groundOf(element) {
    for (let at = element; at; at = at.parentElement) {
      const { backgroundColor } = getComputedStyle(at);
      if (!/, 0\)$/.test(backgroundColor)) return backgroundColor;
    }
    return "rgb(255, 255, 255)";
  }

  function luminance(colour) {
    const [r, g, b] = colour.match(/[\d.]+/g).slice(0, 3).map((channel) => {
      const share = Number(channel) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  }
}
