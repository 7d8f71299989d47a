// Keeps what is typed in the editor on this device until the server has confirmed a save that holds it.
(() => {
  "use strict";
  const prefix = "preapproval:draft:";
  let key = null;
  let reference = null;
  let version = 0;
  let sequence = 0;
  let offline = false;
  let journal = { typed: {}, kept: [] };

  const root = () => document.getElementById("editor");

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
      say("This browser does not let pages keep anything: stay on this page until it says Saved.");
    }
  }

  function say(words, retry) {
    const place = document.getElementById("connection");
    if (!place) {
      return;
    }
    place.hidden = !words;
    place.textContent = words ?? "";
    if (retry) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = "Try to connect again";
      button.addEventListener("click", connect);
      place.append(" ", button);
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
    setTimeout(() => reference?.invokeMethodAsync("ReceivedAsync", number).catch(() => {}), 0);
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

  function setOffline(now) {
    offline = now;
    root()?.classList.toggle("is-offline", now);
    if (now) {
      say("Offline: kept on this device. What you type goes to the server as soon as it can be reached.");
    } else {
      say(null);
    }
  }

  async function connect() {
    try {
      if (!(await window.Blazor.reconnect())) {
        location.reload();
      }
    } catch {
      setOffline(true);
    }
  }

  function onConnection(event) {
    switch (event.detail.state) {
      case "show":
      case "retrying":
        setOffline(true);
        break;
      case "hide":
        setOffline(false);
        // The same page, the same circuit: what could not be sent is sent now.
        type(Object.entries(journal.typed).map(([field, entry]) => ({ field, value: entry.value })));
        break;
      case "failed":
        setOffline(true);
        say("Offline: kept on this device. The server cannot be reached.", true);
        break;
      case "rejected":
        // The server has forgotten this page: a new one offers what was kept.
        location.reload();
        break;
    }
  }

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

  document.addEventListener("input", onInput);
  document.addEventListener("change", onInput);
  document.addEventListener("click", (event) => {
    const link = event.target.closest?.("a[data-field]");
    if (link && goTo(link.dataset.field)) {
      event.preventDefault();
      event.stopPropagation();
    }
  }, true);
  document.addEventListener("components-reconnect-state-changed", onConnection, true);
  window.addEventListener("offline", () => setOffline(true));
  window.addEventListener("online", () => {
    if (offline) {
      connect();
    }
  });

  window.preapprovalEditor = {
    // Returns what an earlier page kept and the draft does not hold.
    start(dotNet, draft, draftVersion) {
      reference = dotNet;
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
        setTimeout(() => goTo(decodeURIComponent(location.hash.slice(1))), 100);
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
