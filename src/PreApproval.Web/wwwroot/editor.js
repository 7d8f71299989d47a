// Keeps what is typed in the editor on this device until the server has confirmed a save that holds it.
(() => {
  "use strict";
  const prefix = "preapproval:draft:";
  let key = null;
  let version = 0;
  let sequence = 0;
  let journal = { typed: {}, kept: [] };

  const root = () => document.getElementById("editor") ?? document.getElementById("explorer");

  function load() {
    try {
      const stored = JSON.parse(localStorage.getItem(key) ?? "{}");
      return { typed: stored.typed ?? {}, kept: stored.kept ?? [] };
    } catch {
      return { typed: {}, kept: [] };
    }
  }

  function store() {
    try {
      if (Object.keys(journal.typed).length === 0 && journal.kept.length === 0) {
        localStorage.removeItem(key);
      } else {
        localStorage.setItem(key, JSON.stringify(journal));
      }
    } catch {
      window.preapprovalConnection.say("This browser does not let pages keep anything: stay on this page until it says Saved.");
    }
  }

  const read = (field) => (field.type === "checkbox" ? String(field.checked) : field.value);

  function labelOf(field) {
    const own = field.getAttribute("aria-label") ?? field.labels?.[0]?.textContent.trim() ?? field.id;
    const row = field.closest("fieldset.row")?.querySelector(":scope > legend")?.textContent.trim();
    const section = field.closest("section")?.querySelector("h2")?.textContent.trim();
    return [section, row, own].filter(Boolean).join(", ");
  }

  function onInput(event) {
    const field = event.target;
    if (!key || !field.id || !root()?.contains(field) || field.closest("[data-no-journal]")) {
      return;
    }
    // A short name goes to the server when the field is left: until then no save can hold it.
    const waits = event.type === "input" && "late" in field.dataset;
    if (!waits) {
      sequence += 1;
    }
    const number = waits ? Number.MAX_SAFE_INTEGER : sequence;
    journal.typed[field.id] = { value: read(field), label: labelOf(field), version, number };
    store();
    if (waits) {
      return;
    }
    // After the event has gone to the server: the number then says that all before it has arrived.
    setTimeout(() => window.preapprovalConnection.received(number)?.catch(() => {}), 0);
  }

  function write(field, value) {
    if (field.type === "checkbox") {
      field.checked = value === "true";
    } else {
      field.value = value;
    }
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }

  // Puts values into their fields as if typed again; what has no field any more stays kept.
  function type(entries) {
    const left = [];
    for (const entry of entries) {
      const field = document.getElementById(entry.field);
      if (field && "value" in field) {
        write(field, entry.value);
      } else {
        left.push(entry);
      }
    }
    return left;
  }

  document.addEventListener("input", onInput);
  document.addEventListener("change", onInput);

  // What could not be sent is sent now.
  window.addEventListener("preapproval-online", () => type(Object.entries(journal.typed).map(([field, entry]) => ({ field, value: entry.value }))));

  window.preapprovalEditor = {
    // Returns what an earlier page kept and the draft does not hold.
    start(dotNet, draft, draftVersion) {
      window.preapprovalConnection.watch(dotNet);
      key = prefix + draft;
      version = draftVersion;
      journal = load();
      const typed = Object.entries(journal.typed).map(([field, entry]) => ({ field, ...entry }));
      const kept = [...journal.kept.filter((k) => !typed.some((t) => t.field === k.field)), ...typed].filter((entry) => {
        const field = document.getElementById(entry.field);
        return !field || read(field) !== entry.value;
      });
      journal = { typed: {}, kept };
      store();
      if (location.hash.length > 1) {
        setTimeout(() => window.preapprovalFields.goTo(decodeURIComponent(location.hash.slice(1))), 100);
      }
      return kept.map(({ field, label, value, version: at }) => ({ field, label, value, version: at }));
    },
    saved(newVersion, upTo) {
      version = newVersion;
      for (const [field, entry] of Object.entries(journal.typed)) {
        if (entry.number <= upTo) {
          delete journal.typed[field];
        } else {
          entry.version = newVersion;
        }
      }
      store();
    },
    putBack() {
      const entries = journal.kept;
      journal.kept = [];
      journal.kept = type(entries);
      store();
    },
    discard() {
      journal.kept = [];
      store();
    },
  };
})();
