// The reader's choice of theme. Runs before the first paint, so that a dark flight deck sees no flash; a classic script,
// so that it also works in a folder opened without a server.
(function () {
  var KEY = 'switchleaf-theme';
  var root = document.documentElement;

  function chosen() {
    try {
      return localStorage.getItem(KEY) || 'system';
    } catch {
      return 'system';
    }
  }
  function apply(theme) {
    if (theme === 'day' || theme === 'night') root.setAttribute('data-theme', theme);
    else root.removeAttribute('data-theme');
  }
  function mark(buttons) {
    buttons.forEach(function (button) {
      button.setAttribute('aria-pressed', String(button.value === (root.getAttribute('data-theme') || 'system')));
    });
  }

  apply(chosen());
  document.addEventListener('DOMContentLoaded', function () {
    var group = document.querySelector('.themes');
    var buttons = Array.from(group.querySelectorAll('button'));
    group.hidden = false;
    mark(buttons);
    buttons.forEach(function (button) {
      button.addEventListener('click', function () {
        apply(button.value);
        mark(buttons);
        try {
          localStorage.setItem(KEY, button.value);
        } catch {
          // Storage may be closed to pages; the choice then holds for this page only.
        }
      });
    });
    // Browsers without ::details-content can't show a closed list beside the page by style alone.
    var contents = document.querySelector('.contents details');
    if (contents && matchMedia('(min-width: 62rem)').matches) contents.open = true;
  });
})();
