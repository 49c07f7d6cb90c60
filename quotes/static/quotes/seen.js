/* A form that somebody else may change meanwhile takes along what it showed, so that only what was touched is kept. */
"use strict";

(function () {
  const before = document.currentScript.dataset.seen;
  const OF_THE_FORM = new Set(["seen", "csrfmiddlewaretoken", "version", "key", "do"]);

  /* As the page came, whatever a browser may have filled in again since. */
  function values(field) {
    if (field.type === "checkbox" || field.type === "radio") return field.defaultChecked ? [field.value] : [];
    if (field.options) {
      const chosen = [...field.options].filter((option) => option.defaultSelected);
      return (chosen.length || field.multiple ? chosen : [...field.options].slice(0, 1)).map((one) => one.value);
    }
    return field.defaultValue === undefined ? [] : [field.defaultValue];
  }

  function shown(form) {
    const fields = {};
    for (const field of form.elements) {
      if (!field.name || field.disabled || field.type === "file" || OF_THE_FORM.has(field.name)) continue;
      for (const value of values(field)) (fields[field.name] = fields[field.name] || []).push(value);
    }
    return JSON.stringify(fields);
  }

  for (const version of document.querySelectorAll("main form[method=post] input[name=version]")) {
    const note = document.createElement("input");
    note.type = "hidden";
    note.name = "seen";
    note.autocomplete = "off";
    note.value = before || shown(version.form);
    version.after(note);
  }
})();
