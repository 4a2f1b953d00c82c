/** One message from a page: checked, handled, and every failure made a value. */
import { channels, type Answer, type ChannelName } from '../../app/contract/channels.ts';
import type { Session } from '../session.ts';
import { diskTrouble, StoreRefusal } from '../store/errors.ts';
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
  try {
    // The name ties handler and input together; the type system cannot see that through the table.
    const handle = handlers[name] as (session: Session, input: unknown) => unknown;
    return { ok: true, value: await handle(session, checked.data) };
  } catch (error) {
    return failure(session, name, error);
  }
}

function failure(session: Session, name: ChannelName, error: unknown): Answer<never> {
  if (error instanceof StoreRefusal) {
    const { code, message, faults } = error;
    return { ok: false, code, detail: message, ...(faults.length > 0 ? { faults } : {}) };
  }
  const trouble = diskTrouble(error);
  session.report(`${name}: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
  if (trouble) return { ok: false, code: 'disk', detail: trouble };
  return {
    ok: false,
    code: 'unexpected',
    detail: 'Something went wrong in the program. What was saved before is safe.',
  };
}
