// Runs the axe that was put into the page, over all that can be unfolded, and returns what it found.
const [tags, colours, done] = arguments;
for (const folded of document.querySelectorAll("details")) folded.open = true;
const options = {
  runOnly: { type: "tag", values: tags },
  resultTypes: ["violations"],
  rules: { "color-contrast": { enabled: colours } },
  // Where a fault is, its own markup tells.
  selectors: false,
  // Styles are read as the browser holds them; nothing is fetched.
  preload: false,
};
axe.run(document, options).then(
  (told) =>
    done({
      rules: told.violations.length + told.passes.length + told.inapplicable.length,
      violations: told.violations.map((v) => ({
        id: v.id,
        help: v.help,
        tags: v.tags,
        first: `${v.nodes.length} x ${v.nodes[0].html.slice(0, 200)} ${v.nodes[0].failureSummary}`,
      })),
    }),
  (fault) => done({ rules: 0, violations: [], fault: String(fault) }),
);
