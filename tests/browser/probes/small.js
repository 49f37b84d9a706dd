// Texts that are drawn smaller than 12 pixels, in charts as the chart is scaled.
const small = [];
for (const text of document.querySelectorAll("svg text")) {
  if (!text.getBoundingClientRect().width || !text.textContent.trim()) continue;
  const size = parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().d;
  if (size < 11.9) small.push(`${text.textContent} ${size}`);
}
for (const element of document.querySelectorAll("body *")) {
  if (element.closest("svg") || !element.getBoundingClientRect().width) continue;
  const own = [...element.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.data.trim());
  const size = parseFloat(getComputedStyle(element).fontSize);
  if (own && size < 12) small.push(`${element.textContent.trim().slice(0, 60)} ${size}`);
}
return small;
