/** Shows a view and waits until its fonts and two frames are through. */
export function draw(page, view) {
  return page.scriptAsync(
    `const done = arguments[1];
     const frame = (then) => requestAnimationFrame(() => setTimeout(then));
     replay.show(arguments[0]);
     document.fonts.ready.then(() => frame(() => frame(done)));`,
    view,
  );
}
