// Keeps the address of the explorer in step with its fields, so that a page that is loaded again shows what was tried.
(() => {
  "use strict";
  const root = () => document.getElementById("explorer");
  const fields = () => [...(root()?.querySelectorAll("[data-query]") ?? [])];

  // What belongs to the step that is looked at; the rest of the address stays.
  const ofTheStep = () => new Set(fields().filter((f) => !("stays" in f.dataset)).map((f) => f.dataset.query));

  // Fields that were changed without a connection, to be sent when it stands again.
  const waiting = new Map();

  function write(change) {
    const address = new URL(location.href);
    change(address.searchParams);
    history.replaceState(history.state, "", address);
  }

  function keep(field) {
    const name = field.dataset.query;
    write((query) => {
      if (name === "step") {
        for (const key of ofTheStep()) {
          query.delete(key);
        }
      }
      if (field.value === "") {
        query.delete(name);
      } else {
        query.set(name, field.value);
      }
    });
  }

  function onInput(event) {
    const field = event.target.closest?.("#explorer [data-query]");
    if (!field) {
      return;
    }
    keep(field);
    if (window.preapprovalConnection?.offline()) {
      waiting.set(field.id, field.value);
    }
  }

  document.addEventListener("input", onInput);
  window.addEventListener("preapproval-online", () => {
    for (const [id, value] of waiting) {
      const field = document.getElementById(id);
      if (field) {
        field.value = value;
        field.dispatchEvent(new Event("input", { bubbles: true }));
        field.dispatchEvent(new Event("change", { bubbles: true }));
      }
    }
    waiting.clear();
  });

  window.preapprovalExplorer = {
    start(dotNet) {
      window.preapprovalConnection.watch(dotNet);
    },
    // Back to the plan: only the step stays in the address.
    clear() {
      waiting.clear();
      write((query) => {
        for (const name of ofTheStep()) {
          if (name !== "step") {
            query.delete(name);
          }
        }
      });
    },
  };
})();
