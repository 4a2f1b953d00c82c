/** The whole planner over one document, as a person sees it once the worker has thought to its end. */
import { cleanup, render } from '@testing-library/svelte';
import { tick } from 'svelte';
import type { ChannelOutput } from '../../../app/contract/channels.ts';
import { plan } from '../../../app/answer/plan.ts';
import { answerPlanRequest, type PlanRequest } from '../../../app/answer/worker.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { sheetsHtml } from '../../../app/shop/sheets.ts';
import App from '../../../renderer/App.svelte';
import { LATER } from '../../../renderer/frame/later.ts';
import { ShopState } from '../../../renderer/decide/shop.svelte.ts';
import type { TrayId } from '../../../renderer/state/desk.svelte.ts';
import { PlannerState } from '../../../renderer/state/planner.svelte.ts';
import type { WorkerPort } from '../../../renderer/state/solver.ts';
import { ThemeState } from '../../../renderer/state/theme.svelte.ts';
import { library } from '../../library.ts';
import { openOf, StandInStore } from '../state/store.ts';

export interface Screen {
  readonly planner: PlannerState;
  /** Opens a tray, with a section of it or a stage where it has such, and gives its body. */
  readonly tray: (id: TrayId, view?: Record<string, unknown>) => Promise<HTMLElement>;
  readonly find: (selector: string) => HTMLElement | null;
  readonly close: () => void;
}

/** Answers at once, to the end, each reply as it would cross from the worker's thread. */
function worker(): WorkerPort {
  const port: WorkerPort = {
    onmessage: null,
    onerror: null,
    postMessage: (message) => {
      const request = structuredClone(message) as PlanRequest;
      if (!('document' in request)) return;
      queueMicrotask(() => {
        for (const reply of answerPlanRequest(request)) {
          const data = structuredClone(reply);
          if (data) port.onmessage?.({ data } as MessageEvent);
        }
      });
    },
  };
  return port;
}

/**
 * @param now ISO 8601 with its offset
 * @param view what the window kept when it was closed
 */
export async function openScreen(
  document: object,
  now: string,
  view: Record<string, unknown> = {},
): Promise<Screen> {
  const store = new StandInStore();
  const session: ChannelOutput<'session-start'> = {
    runtime: 'browser',
    now: new Date(now).toISOString(),
    nowFixed: true,
    library,
    builds: [],
    open: openOf('held', 1, document),
    drafts: [],
    draft: null,
    view,
  };
  const call = ((name: string, input: never) =>
    name === 'session-start'
      ? Promise.resolve({ ok: true, value: session })
      : name === 'lessons-read'
        ? Promise.resolve({ ok: true, value: [] })
        : store.call(name as never, input)) as typeof store.call;
  const planner = new PlannerState({
    call,
    plan: (build, rows, minute) => plan(build, rows, minute, FIRST_ANSWER),
    applyLever: () => null,
    printPage: () => undefined,
    sheetsHtml,
    downloadText: () => undefined,
    worker: worker(),
    elapsedMs: () => 0,
    zone: 'Europe/Lisbon',
  });
  const media = { matches: false, addEventListener: () => undefined } as unknown as MediaQueryList;
  const theme = new ThemeState(() => media);
  const { container } = render(App, { planner, theme, shop: new ShopState(call) });
  await planner.start();
  await tick();
  if (!planner.planning.full) throw new Error('the worker has not answered to its end');
  return {
    planner,
    find: (selector) => container.querySelector<HTMLElement>(selector),
    tray: async (id, view = {}) => {
      planner.setView({ tray: id, trayOpen: true, ...view });
      await tick();
      // A tray that is fetched when it is shown is drawn a moment after.
      if (id in LATER) await LATER[id as keyof typeof LATER]();
      await new Promise((resolve) => setTimeout(resolve));
      await tick();
      return container.querySelector<HTMLElement>('#tray-body')!;
    },
    close: cleanup,
  };
}
