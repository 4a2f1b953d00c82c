/** The room as an edit of the document. */
import { setField, type Change } from './change.ts';
import type { Draft } from './path.ts';

/** The room by day and night as the log has it, to the half degree. */
export function setRoomFromLog(document: Draft, dayC: number, nightC: number): Change {
  const half = (value: number): number => Math.round(value * 2) / 2;
  const [day, night] = [half(dayC), half(nightC)];
  const said = `${day} °C by day, ${night} °C by night, from a log`;
  return setField(document, 'room.temperatureC', { day, night }, 'Room', said);
}
