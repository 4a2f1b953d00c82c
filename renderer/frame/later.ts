/**
 * Rooms that the first picture does not need, and the charts with them. Each is fetched when it is first
 * opened; all of them once the page has nothing to do, so that they open even where the host has ended.
 */
export const LATER = {
  bench: () => import('../bench/Bench.svelte'),
  chemistry: () => import('../chemistry/ChemistryTray.svelte'),
  curves: () => import('../charts/CureChart.svelte'),
  decide: () => import('../decide/DecideTray.svelte'),
  help: () => import('../help/Help.svelte'),
  history: () => import('../builds/History.svelte'),
  part: () => import('../part/PartTray.svelte'),
  ticks: () => import('../floor/PhoneTicks.svelte'),
  sheets: () => import('../sheets/PrintSheets.svelte'),
} as const;

/** Milliseconds that the page may stay busy before they are fetched all the same. */
const AT_LATEST_MS = 10_000;

export function fetchWhenIdle(): void {
  const fetchAll = () => {
    for (const room of Object.values(LATER)) void room().catch(() => undefined);
  };
  if ('requestIdleCallback' in window) requestIdleCallback(fetchAll, { timeout: AT_LATEST_MS });
  else setTimeout(fetchAll, AT_LATEST_MS);
}
