/** Channel name -> handler, every one and no other. */
import {
  buildBringBack,
  buildCreate,
  buildImport,
  buildList,
  buildOpen,
  buildRedo,
  buildRemove,
  buildSave,
  buildUndo,
  lessonsRead,
  removedList,
  sampleReset,
} from './builds.ts';
import { rowKeep } from './rows.ts';
import { calendarRead, holidayPlaces, holidaysOf } from './calendars.ts';
import { copyList, copyRestore, shopExport } from './copies.ts';
import { draftCreate, draftList, draftOpen, draftRemove, draftSave } from './drafts.ts';
import { alarmsSet, keepAwake, pageHere } from './floor.ts';
import { printSheets, textSave } from './print.ts';
import { sessionStart, viewSave } from './session.ts';
import type { Handlers } from './types.ts';
import { historyList, versionName, versionRead, versionReturn } from './versions.ts';

export const handlers: Handlers = {
  'session-start': sessionStart,
  'build-list': buildList,
  'build-create': buildCreate,
  'build-open': buildOpen,
  'build-save': buildSave,
  'build-undo': buildUndo,
  'build-redo': buildRedo,
  'history-list': historyList,
  'version-name': versionName,
  'version-read': versionRead,
  'version-return': versionReturn,
  'sample-reset': sampleReset,
  'build-remove': buildRemove,
  'removed-list': removedList,
  'build-bring-back': buildBringBack,
  'copy-list': copyList,
  'copy-restore': copyRestore,
  'shop-export': shopExport,
  'build-import': buildImport,
  'draft-list': draftList,
  'draft-create': draftCreate,
  'draft-open': draftOpen,
  'draft-save': draftSave,
  'draft-remove': draftRemove,
  'lessons-read': lessonsRead,
  'row-keep': rowKeep,
  'holiday-places': holidayPlaces,
  'holiday-list': holidaysOf,
  'calendar-read': calendarRead,
  'view-save': viewSave,
  'print-sheets': printSheets,
  'text-save': textSave,
  'page-here': pageHere,
  'keep-awake': keepAwake,
  'alarms-set': alarmsSet,
};
