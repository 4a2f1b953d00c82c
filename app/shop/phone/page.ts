/** A plan as one self-contained page for a phone: it loads nothing and sends nothing. */
import { DEFERRAL } from '../../messages/safety.ts';
import type { PlanOutcome } from '../../plan/outcome.ts';
import { formats, formatsOf, wordedAs } from '../../units/formats.ts';
import { planStamp } from '../parts.ts';
import { sheetDataOf } from '../sheetData.ts';
import { escapeHtml as e } from '../tree.ts';
import { NOT_TO_BE_BUILT } from '../withheld.ts';
import {
  phoneContent,
  type PhoneCard,
  type PhoneContent,
  type PhoneDay,
  type PhonePick,
} from './content.ts';
import { PHONE_SCRIPT, PHONE_STYLE } from './script.ts';

/** SHA-256 of the script and the style, as the policy names them. A test works them out again. */
export const SCRIPT_HASH = 'sha256-7XTRfkGifFh7LvwjNsWHdx9tLMdrPICfSSJrZlfm4Yo=';
export const STYLE_HASH = 'sha256-yLTuaOJBz7oxf/qAqw+M1N5mZt8jSJqWWGTqPDpLEW0=';

const POLICY = `default-src 'none'; script-src '${SCRIPT_HASH}'; style-src '${STYLE_HASH}'; base-uri 'none'; form-action 'none'`;

export const phonePage = (outcome: PlanOutcome, pick: PhonePick = {}): string =>
  wordedAs(formatsOf(outcome.detail.build), () => pageOf(outcome, pick));

function pageOf(outcome: PlanOutcome, pick: PhonePick): string {
  const content = phoneContent(outcome, pick);
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${e(POLICY)}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="referrer" content="no-referrer">',
    `<title>${e(content.name)}</title>`,
    `<style>${PHONE_STYLE}</style>`,
    '</head>',
    '<body>',
    head(content, planStamp(sheetDataOf(outcome))),
    '<main>',
    content.days.length === 0 ? '<p>No stage is picked.</p>' : '',
    ...content.days.map(dayOf),
    give(),
    '</main>',
    `<script type="application/json" id="pack">${dataOf(content)}</script>`,
    `<script>${PHONE_SCRIPT}</script>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

/** What the script reads. No sign that could end the element or begin another. */
function dataOf({ build, plan, zone, clocks }: PhoneContent): string {
  const { monthFirst, clock: hours } = formats();
  return JSON.stringify({ build, plan, zone, monthFirst, hours, clocks }).replace(
    /[<>&\u2028\u2029]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

const head = ({ name }: PhoneContent, stamp: string): string =>
  `<header><div id="top"><h1>${e(name)}</h1><span id="now"></span></div>` +
  '<ul id="clocks" aria-label="Clocks"></ul></header>' +
  `<p class="small">${e(stamp)}. ` +
  'Clocks go by your ticks and by the warmth that the plan reckons with: the witness smear decides. ' +
  `They are silent. ${e(DEFERRAL)}</p>`;

const dayOf = ({ date, name, cards }: PhoneDay): string =>
  `<details data-day="${e(date)}"><summary><h2>${e(name)}</h2> <span class="small">${cards.length === 1 ? '1 stage' : `${cards.length} stages`}</span></summary>` +
  `${cards.map(cardOf).join('')}</details>`;

function cardOf(card: PhoneCard): string {
  const list = (lines: readonly string[], className: string): string =>
    lines.length === 0 ? '' : `<p class="${className}">${lines.map(e).join('<br>')}</p>`;
  const about = [card.when, card.who].filter((text) => text !== '').join(', ');
  return [
    `<article data-stage="${e(card.id)}"><h3>${e(card.name)}</h3><p>${e(about)}</p>`,
    list(card.withheld.length > 0 ? [NOT_TO_BE_BUILT, ...card.withheld] : [], 'not'),
    list(
      card.waitsFor.length > 0 ? ['NOT RELEASED before this is settled', ...card.waitsFor] : [],
      'not',
    ),
    card.state === 'done' ? '<p class="small">Written down in the program.</p>' : '',
    card.state === 'running' ? '<p class="small">Begun, by the program’s records.</p>' : '',
    list(card.cautions, 'small'),
    ...card.steps.map(
      ({ key, label, held }) =>
        `<button type="button" data-key="${e(key)}" data-held="${held ? 'yes' : 'no'}" aria-pressed="false"><b></b>${e(label)}<span class="again">Press once more</span></button>`,
    ),
    '</article>',
  ].join('');
}

const give = (): string =>
  '<section><h2>Ticks for the program</h2><p>Copy this text, send it, and paste it under “Ticks of a phone”. ' +
  'Nothing is taken before it is looked at there.</p>' +
  '<p><span id="count"></span> <span id="kept" role="status"></span></p>' +
  '<textarea id="text" readonly aria-label="Text of the ticks"></textarea>' +
  '<button type="button" id="copy">Copy the text</button><p id="copied" role="status"></p></section>';
