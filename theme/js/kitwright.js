/* Kitwright: ticks, wait timers and the page's shade. Everything reads and prints without it. */
(function () {
  "use strict";

  function kept(key) {
    try { return window.localStorage.getItem("kitwright:" + key); } catch (error) { return null; }
  }
  function keep(key, value) {
    try {
      if (value === null) { window.localStorage.removeItem("kitwright:" + key); }
      else { window.localStorage.setItem("kitwright:" + key, value); }
    } catch (error) { /* a locked-down browser keeps nothing; the page works on */ }
  }

  var root = document.documentElement;
  var shade = kept("shade");
  if (shade === "dark" || shade === "light") { root.setAttribute("data-shade", shade); }

  function isDark() {
    var set = root.getAttribute("data-shade");
    if (set) { return set === "dark"; }
    return Boolean(window.matchMedia && window.matchMedia("(prefers-color-scheme: dark)").matches);
  }

  function shadeButton() {
    var button = document.querySelector(".shade");
    if (!button) { return; }
    function name() { button.textContent = isDark() ? "Light page" : "Dark page"; }
    button.hidden = false;
    button.addEventListener("click", function () {
      var next = isDark() ? "light" : "dark";
      root.setAttribute("data-shade", next);
      keep("shade", next);
      name();
    });
    name();
  }

  function ticks(scope) {
    var boxes = Array.prototype.slice.call(document.querySelectorAll("input[data-tick]"));
    var progress = document.querySelector(".progress");
    if (!boxes.length) { return; }
    function count() {
      var steps = document.querySelectorAll(".done input[data-tick]");
      var done = 0;
      Array.prototype.forEach.call(steps, function (box) {
        if (box.checked) { done += 1; }
        box.closest(".step").classList.toggle("ticked", box.checked);
      });
      if (progress) {
        progress.hidden = false;
        progress.querySelector(".count").textContent = done + " of " + steps.length + " steps ticked";
      }
    }
    boxes.forEach(function (box) {
      var key = scope + ":tick:" + box.getAttribute("data-tick");
      box.checked = kept(key) === "yes";
      box.addEventListener("change", function () {
        keep(key, box.checked ? "yes" : null);
        count();
      });
    });
    if (progress) {
      progress.querySelector(".clear").addEventListener("click", function () {
        boxes.forEach(function (box) {
          box.checked = false;
          keep(scope + ":tick:" + box.getAttribute("data-tick"), null);
        });
        count();
      });
    }
    count();
  }

  function clock(time) {
    var day = new Date().toDateString() === time.toDateString() ? {} : { weekday: "short" };
    day.hour = "2-digit";
    day.minute = "2-digit";
    return time.toLocaleString([], day);
  }

  function left(milliseconds) {
    var minutes = Math.ceil(milliseconds / 60000);
    if (minutes < 60) { return minutes + " min to go"; }
    return Math.floor(minutes / 60) + " h " + (minutes % 60) + " min to go";
  }

  function wait(block, scope) {
    var key = scope + ":wait:" + block.id;
    var length = Number(block.getAttribute("data-minutes")) * 60000;
    var start = block.querySelector(".start");
    var ready = block.querySelector(".ready");
    var button = document.createElement("button");
    var told = document.createElement("output");
    var began = Number(kept(key)) || 0;
    button.type = "button";
    block.querySelector(".blanks").appendChild(button);
    block.querySelector(".blanks").appendChild(told);

    function show() {
      button.textContent = began ? "Clear the times" : "Start it now";
      if (!began) { told.textContent = ""; return; }
      start.value = clock(new Date(began));
      ready.value = clock(new Date(began + length));
      var rest = began + length - Date.now();
      told.textContent = rest > 0 ? left(rest) : "The time is up";
    }
    button.addEventListener("click", function () {
      began = began ? 0 : Date.now();
      if (!began) { start.value = ""; ready.value = ""; }
      keep(key, began ? String(began) : null);
      show();
    });
    window.setInterval(show, 15000);
    show();
  }

  function plain(text) {
    return text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "").replace(/\u00a0/g, " ");
  }

  /* A printed page by its letters: one row is left, or the words for letters that nobody printed. */
  function lookup() {
    var form = document.querySelector(".lookup");
    if (!form) { return; }
    var rows = Array.prototype.slice.call(document.querySelectorAll(".code"));
    var wanted = form.querySelector(".wanted");
    var unknown = document.querySelector(".unknown");
    function show() {
      var letters = plain(wanted.value).replace(/[^a-z0-9]/g, "");
      var seen = 0;
      rows.forEach(function (row) {
        row.hidden = !letters || row.id.indexOf(letters) !== 0;
        row.classList.toggle("sought", letters.length === 6 && !row.hidden);
        if (!row.hidden) { seen += 1; }
      });
      unknown.hidden = seen > 0 || !letters;
      var told = letters ? seen + (seen === 1 ? " page" : " pages") : "";
      if (letters.length === 6 && seen === 1) {
        told = document.getElementById(letters).querySelector(".word").textContent;
      }
      form.querySelector(".count").textContent = told;
    }
    form.hidden = false;
    form.addEventListener("submit", function (event) { event.preventDefault(); });
    wanted.addEventListener("input", show);
    if (window.location.hash.length === 7) { wanted.value = window.location.hash.slice(1); }
    show();
  }

  function find() {
    var form = document.querySelector(".find:not(.lookup)");
    if (!form) { return; }
    var rows = Array.prototype.slice.call(document.querySelectorAll(".found li"));
    var texts = rows.map(function (row) { return plain(row.textContent); });
    var wanted = form.querySelector(".wanted");
    function show() {
      var words = plain(wanted.value).split(/\s+/).filter(Boolean);
      var seen = 0;
      rows.forEach(function (row, index) {
        row.hidden = !words.every(function (word) { return texts[index].indexOf(word) >= 0; });
        if (!row.hidden) { seen += 1; }
      });
      form.querySelector(".count").textContent = words.length ? seen + " found" : "";
    }
    form.hidden = false;
    form.addEventListener("submit", function (event) { event.preventDefault(); });
    wanted.addEventListener("input", show);
    show();
  }

  document.addEventListener("DOMContentLoaded", function () {
    var scope = document.body.getAttribute("data-keep") || "page";
    shadeButton();
    ticks(scope);
    find();
    lookup();
    Array.prototype.forEach.call(document.querySelectorAll(".wait[data-minutes]"), function (block) {
      wait(block, scope);
    });
  });
}());
