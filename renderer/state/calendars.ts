/** Public holidays and calendar files, asked of the program behind the page. */
import type { Answer, ChannelInput, ChannelOutput } from '../../app/contract/channels.ts';
import type { Call } from './bridge.ts';

export type Places = ChannelOutput<'holiday-places'>;
export type HolidayList = ChannelOutput<'holiday-list'>;
export type BusyFile = ChannelOutput<'calendar-read'>;

export class Calendars {
  readonly #call: Call;

  constructor(call: Call) {
    this.#call = call;
  }

  places = (country: string | null): Promise<Answer<Places>> =>
    this.#call('holiday-places', { country });

  holidays = (asked: ChannelInput<'holiday-list'>): Promise<Answer<HolidayList>> =>
    this.#call('holiday-list', asked);

  read = (asked: ChannelInput<'calendar-read'>): Promise<Answer<BusyFile>> =>
    this.#call('calendar-read', asked);
}
