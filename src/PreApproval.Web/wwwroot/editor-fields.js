// Finds the fields and rows of the editor and goes to them.
(() => {
  "use strict";
  function findField(pointer) {
    for (let path = pointer; path; path = path.slice(0, path.lastIndexOf("/"))) {
      const exact = document.getElementById(path);
      if (exact) {
        return exact;
      }
      if (path === pointer) {
        const inside = [...document.querySelectorAll("#editor [id]")].find((e) => e.id.startsWith(path + "/") && "value" in e);
        if (inside) {
          return inside;
        }
      }
    }
    return null;
  }

  const fieldIn = (box) => [...(box?.querySelectorAll("input, select, textarea") ?? [])].find((f) => !f.disabled && f.offsetParent !== null);

  // After a row was added, removed or moved: where the work goes on.
  function focusRow(list, index, act) {
    const row = document.getElementById(`${list}/${index}`);
    if (act === "first") {
      // Somebody quick is in the new row already and types there.
      if (!row?.contains(document.activeElement)) {
        (fieldIn(row) ?? row)?.focus();
      }
      return;
    }
    if (act === "near") {
      const near = row ?? document.getElementById(`${list}/${index - 1}`) ?? document.querySelector(`[data-add="${list}"]`) ?? document.getElementById(list);
      (near ?? findField(list))?.focus();
      return;
    }
    const acts = row?.querySelector(":scope > .row-acts:last-of-type");
    const wanted = acts?.querySelector(`[data-act="${act}"]`);
    (wanted && !wanted.disabled ? wanted : acts?.querySelector("[data-act]:not(:disabled)"))?.focus();
  }

  function goTo(pointer) {
    const field = findField(pointer);
    if (!field) {
      return false;
    }
    for (let box = field.closest("details"); box; box = box.parentElement.closest("details")) {
      box.open = true;
    }
    field.focus();
    field.scrollIntoView({ block: "center" });
    return true;
  }

  document.addEventListener("click", (event) => {
    const link = event.target.closest?.("a[data-field]");
    if (link && goTo(link.dataset.field)) {
      event.preventDefault();
      event.stopPropagation();
    }
  }, true);

  window.preapprovalFields = { goTo, focusRow };
})();
