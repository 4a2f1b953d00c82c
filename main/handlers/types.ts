/** The shape of a handler: checked input in, typed output out. */
import type { z } from 'zod';
import type { ChannelName, ChannelOutput, Channels } from '../../app/contract/channels.ts';
import type { Session } from '../session.ts';

export type CheckedInput<N extends ChannelName> = z.output<Channels[N]['input']>;

/** Trouble is thrown as StoreRefusal; `answer` turns it into a value. */
export type Handler<N extends ChannelName> = (
  session: Session,
  input: CheckedInput<N>,
) => ChannelOutput<N> | Promise<ChannelOutput<N>>;

export type Handlers = { readonly [N in ChannelName]: Handler<N> };
