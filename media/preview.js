/*
 * In the built-in preview: from a row to its line in the note, by the keyboard as by a double click. VS Code goes to the
 * line at whose height it hears a double click; so it gets one, at the row's first line. Its setting
 * `markdown.preview.doubleClickToSwitchToEditor` holds for both.
 */
(() => {
  /** The row that carries its line, of a row that may hang under it. */
  const rowOf = (/** @type {Element} */ inside) => {
    let row = inside.closest('.scribeline-table > tbody > tr');
    while (row && !row.hasAttribute('data-line')) row = row.previousElementSibling;
    return row;
  };
  const go = (/** @type {Element} */ row) => {
    const clientY = row.getBoundingClientRect().top + 1;
    row.dispatchEvent(new MouseEvent('dblclick', { bubbles: true, clientY, view: window }));
  };
  const wayOf = (/** @type {Event} */ { target }) =>
    target instanceof Element ? target.closest('.scribeline-way') : null;

  addEventListener('keydown', (event) => {
    const way = event.key === 'Enter' || event.key === ' ' ? wayOf(event) : null;
    const row = way && rowOf(way);
    if (!row || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    go(row);
  });
  // A screen reader presses a button without key or pointer; a pointer's single click is for selecting.
  addEventListener('click', (event) => {
    const way = event.detail === 0 ? wayOf(event) : null;
    const row = way && rowOf(way);
    if (row) go(row);
  });
  // Between a row and what VS Code knows next may lie lines that are not drawn: it would land on one of those.
  addEventListener(
    'dblclick',
    (event) => {
      const row = event.isTrusted && event.target instanceof Element ? rowOf(event.target) : null;
      if (!row || event.target.closest('a')) return;
      event.stopPropagation();
      go(row);
    },
    { capture: true },
  );
})();
