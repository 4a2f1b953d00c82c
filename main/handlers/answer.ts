/** One message from a page: checked, handled, and every failure made a value. */
import { channels, type Answer, type ChannelName } from '../../app/contract/channels.ts';
import type { Session } from '../session.ts';
import { diskTrouble, isBusy, StoreRefusal } from '../store/errors.ts';
import { NEWER } from '../store/newer.ts';
import { handlers } from './table.ts';

export const isChannel = (name: string): name is ChannelName => Object.hasOwn(channels, name);

/** Never throws. What is unexpected is reported to the program's log, not to the page. */
export async function answer(
  session: Session,
  name: ChannelName,
  raw: unknown,
): Promise<Answer<unknown>> {
  const checked = channels[name].input.safeParse(raw);
  if (!checked.success) {
    const [issue] = checked.error.issues;
    const where = issue?.path.join('.') || 'message';
    return {
      ok: false,
      code: 'bad-message',
      detail: `${where}: ${issue?.message ?? 'unreadable'}`,
    };
  }
  if (channels[name].writes && session.store.readOnly && !READS_IN_TRUTH.has(name)) {
    return { ok: false, code: 'refused', detail: `${NEWER}.` };
  }
  try {
    if (channels[name].writes) session.keepCopy();
    // The name ties handler and input together; the type system cannot see that through the table.
    const handle = handlers[name] as (session: Session, input: unknown) => unknown;
    return { ok: true, value: await whenFree(() => handle(session, checked.data)) };
  } catch (error) {
    return failure(session, name, error);
  }
}

/** What these write is only that it lay open. */
const READS_IN_TRUTH: ReadonlySet<ChannelName> = new Set(['build-open', 'draft-open', 'view-save']);

/** How long a request waits for a data file that another process holds; others are answered meanwhile. */
const BUSY_MS = 4000;
const TRY_AGAIN_MS = 40;

async function whenFree(work: () => unknown): Promise<unknown> {
  for (let waited = 0; ; waited += TRY_AGAIN_MS) {
    try {
      return await work();
    } catch (error) {
      if (!isBusy(error) || waited >= BUSY_MS) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, TRY_AGAIN_MS));
  }
}

function failure(session: Session, name: ChannelName, error: unknown): Answer<never> {
  if (error instanceof StoreRefusal) {
    const { code, message, faults } = error;
    return { ok: false, code, detail: message, ...(faults.length > 0 ? { faults } : {}) };
  }
  const trouble = diskTrouble(error, session.store.dataDir);
  session.report(`${name}: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
  if (trouble) return { ok: false, code: 'disk', detail: trouble };
  return {
    ok: false,
    code: 'unexpected',
    detail: 'Something went wrong in the program. What was saved before is safe.',
  };
}
