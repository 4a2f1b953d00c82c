/**
 * Names of the channels, apart from the schemas: the preload needs them and nothing else.
 * A test holds them equal to the table's.
 */
import type { ChannelName } from './channels.ts';

export const CHANNEL_NAMES = [
  'session-start',
  'build-list',
  'build-create',
  'build-open',
  'build-save',
  'build-undo',
  'build-redo',
  'history-list',
  'version-name',
  'version-read',
  'version-return',
  'sample-reset',
  'build-remove',
  'removed-list',
  'build-bring-back',
  'copy-list',
  'copy-restore',
  'shop-export',
  'build-import',
  'draft-list',
  'draft-create',
  'draft-open',
  'draft-save',
  'draft-remove',
  'lessons-read',
  'row-keep',
  'holiday-places',
  'holiday-list',
  'calendar-read',
  'view-save',
  'print-sheets',
  'text-save',
  'page-here',
  'keep-awake',
  'alarms-set',
] as const satisfies readonly ChannelName[];

/** Of what a window keeps: what is kept for each build, by its id. */
export const VIEW_BY_BUILD: readonly string[] = ['looked', 'typed'];
