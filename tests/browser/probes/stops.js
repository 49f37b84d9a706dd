// Everything that the Tab key should stop at, in the order of the document. Of radio buttons of one
// name only the one that is set is a stop. Other probes stand on this one.
function stops() {
  const selector = "a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex]";
  return [...document.querySelectorAll(selector)].filter((element) => {
    if (element.tabIndex < 0 || element.disabled) return false;
    if (!element.checkVisibility({ visibilityProperty: true }) || !element.getClientRects().length) {
      return false;
    }
    if (element.type !== "radio" || element.checked) return true;
    const group = [...document.getElementsByName(element.name)];
    return element === group[0] && !group.some((one) => one.checked);
  });
}
