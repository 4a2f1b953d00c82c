import { expect, it, vi } from 'vitest';
import { plan } from '../../../app/answer/plan.ts';
import { migrate } from '../../../app/document/migrate/migrate.ts';
import { RESULT_VERSION } from '../../../app/document/schema.ts';
import { FIRST_ANSWER } from '../../../app/plan/outcome.ts';
import { library, NOW, read, smallBuild } from '../../support/builds.ts';

// A program whose document format is three steps on, while its result looks as it always did.
vi.mock('../../../app/document/schema.ts', async (original) => ({
  ...(await original<object>()),
  DOCUMENT_VERSION: 4,
}));

it('a raised document version leaves the number of the result alone', () => {
  expect(read({ ...smallBuild(), formatVersion: 4 }).ok).toBe(true);
  expect(read({ ...smallBuild(), formatVersion: 5 })).toMatchObject({
    faults: [{ path: 'formatVersion', expected: expect.stringMatching(/^at most 4/) as string }],
  });
  expect(plan(smallBuild(), library(), NOW, FIRST_ANSWER).result.formatVersion).toBe(
    RESULT_VERSION,
  );
});

it('a document without a step to the next version keeps the version it has', () => {
  expect(migrate({ name: 'old', formatVersion: 3 })).toEqual({ name: 'old', formatVersion: 3 });
});
