/** On paper only the sheets remain: all around them goes, and what holds them becomes plain flow. */
export const PRINT_ONLY_SHEETS = `@media print {
  body :not(:has(.shop-sheets)):not(.shop-sheets, .shop-sheets *) { display: none !important; }
  :root { color-scheme: light !important; }
  html, body, body :has(.shop-sheets) {
    display: block !important;
    position: static !important;
    overflow: visible !important;
    width: auto !important;
    height: auto !important;
    max-width: none !important;
    max-height: none !important;
    margin: 0 !important;
    padding: 0 !important;
    border: 0 !important;
    background: #fff !important;
    transform: none !important;
  }
}
`;
