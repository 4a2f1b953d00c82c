/**
 * What runs in a phone pack: one constant text, so that the page's policy can name it by its hash and run
 * nothing else. All it is given is the data in the page. Plain JavaScript: no build step touches it.
 */
export const PHONE_SCRIPT = `'use strict';
const pack = JSON.parse(document.getElementById('pack').textContent);
const keptAs = 'backcure ticks of ' + pack.build + ' ' + pack.plan;
const buttons = new Map();
for (const button of document.querySelectorAll('button[data-key]')) buttons.set(button.dataset.key, button);
let ticks = new Map();

function load() {
  let kept = [];
  try { kept = JSON.parse(localStorage.getItem(keptAs)) || []; } catch (error) { kept = []; }
  if (!Array.isArray(kept)) return;
  for (const one of kept) {
    if (Array.isArray(one) && buttons.has(one[0]) && Number.isInteger(one[1])) ticks.set(one[0], one[1]);
  }
}
function keep() {
  let said = '';
  try { localStorage.setItem(keptAs, JSON.stringify([...ticks])); } catch (error) {
    said = 'This browser keeps nothing: copy the text before the page is closed.';
  }
  document.getElementById('kept').textContent = said;
}
function checkSum(text) {
  let sum = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) sum = Math.imul(sum ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return sum.toString(16).padStart(8, '0');
}
function text() {
  const utc = (minute) => new Date(minute * 60000).toISOString().slice(0, 16) + 'Z';
  const rows = [...ticks].sort((a, b) => a[1] - b[1]).map(([key, at]) => key + ' ' + utc(at));
  const lines = ['BACKCURE TICKS 1', 'build ' + pack.build, 'plan ' + pack.plan, ...rows];
  return lines.concat('sum ' + checkSum(lines.join('\\n'))).join('\\n') + '\\n';
}
const dateOf = new Intl.DateTimeFormat('en-CA', { timeZone: pack.zone, year: 'numeric', month: '2-digit', day: '2-digit' });
const local = new Intl.DateTimeFormat('en-GB', { timeZone: pack.zone, weekday: 'short', day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
const partsOf = (ms) => Object.fromEntries(local.formatToParts(ms).map(({ type, value }) => [type, value]));
function dayOf(ms) {
  const { weekday, day, month } = partsOf(ms);
  return weekday + ' ' + (pack.monthFirst ? month + ' ' + day : day + ' ' + month);
}
function clockOf(ms) {
  const { hour, minute } = partsOf(ms);
  return pack.hours === 12 ? (Number(hour) % 12 || 12) + ':' + minute + (hour < 12 ? ' am' : ' pm') : hour + ':' + minute;
}
const longAt = (minute, now) => (dayOf(minute * 60000) === dayOf(now) ? '' : dayOf(minute * 60000) + ' ') + clockOf(minute * 60000);
function length(minutes) {
  const whole = Math.abs(minutes);
  if (whole < 60) return whole + ' min';
  return Math.floor(whole / 60) + ' h' + (whole % 60 ? ' ' + (whole % 60) + ' min' : '');
}

function showButtons() {
  for (const card of document.querySelectorAll('article')) {
    const own = [...card.querySelectorAll('button[data-key]')];
    const next = own.findIndex((button) => !ticks.has(button.dataset.key));
    own.forEach((button, i) => {
      const at = ticks.get(button.dataset.key);
      const last = i === (next < 0 ? own.length : next) - 1;
      button.setAttribute('aria-pressed', String(at !== undefined));
      button.disabled = at === undefined ? i !== next : !last;
      button.querySelector('b').textContent = at === undefined ? '' : '\\u2713 ' + longAt(at, Date.now());
    });
    card.classList.toggle('over', own.length > 0 && next < 0);
  }
}
function movedAt({ at, from }) {
  const begun = from ? ticks.get(from.key) : undefined;
  return begun === undefined ? at : begun + at - from.at;
}
function showClocks() {
  const now = Date.now();
  const list = document.getElementById('clocks');
  const mixing = new Set();
  const running = [];
  for (const one of pack.clocks) {
    if (one.until.some((key) => ticks.has(key))) continue;
    const begun = one.from ? ticks.get(one.from.key) : undefined;
    const at = Math.min(movedAt(one), one.latest ? movedAt(one.latest) : Infinity);
    const left = Math.ceil(at - now / 60000);
    if (one.aheadMinutes !== null) {
      const cure = one.label.slice(0, one.label.lastIndexOf(','));
      if (mixing.has(cure)) continue;
      mixing.add(cure);
      if (left > one.aheadMinutes && begun === undefined) continue;
    } else if (one.from && begun === undefined) continue;
    running.push({ label: one.label, at, left });
  }
  running.sort((a, b) => a.at - b.at);
  list.replaceChildren(...running.map(({ label, at, left }) => {
    const item = document.createElement('li');
    const strong = document.createElement('strong');
    strong.textContent = left > 0 ? 'in ' + length(left) : left === 0 ? 'now' : length(left) + ' over';
    item.append(strong, ', ' + longAt(at, now) + ' ' + label);
    if (left <= 0) item.className = 'due';
    return item;
  }));
  document.getElementById('now').textContent = dayOf(now) + ' ' + clockOf(now);
  for (const day of document.querySelectorAll('details[data-day]')) {
    if (!day.dataset.seen && day.dataset.day === dateOf.format(now)) { day.open = true; day.dataset.seen = '1'; }
  }
}
function show() {
  showButtons();
  showClocks();
  const out = document.getElementById('text');
  out.value = ticks.size === 0 ? '' : text();
  document.getElementById('count').textContent = ticks.size === 1 ? '1 tick' : ticks.size + ' ticks';
}

let armed = null;
function disarm() {
  if (armed) { armed.button.classList.remove('armed'); clearTimeout(armed.timer); }
  armed = null;
}
for (const [key, button] of buttons) {
  button.addEventListener('click', () => {
    const on = ticks.has(key);
    const isSecond = armed !== null && armed.button === button;
    disarm();
    if ((on || button.dataset.held === 'yes') && !isSecond) {
      button.classList.add('armed');
      armed = { button, timer: setTimeout(disarm, 4000) };
      return;
    }
    if (on) ticks.delete(key);
    else ticks.set(key, Math.floor(Date.now() / 60000));
    keep();
    show();
  });
}
document.getElementById('copy').addEventListener('click', async () => {
  const out = document.getElementById('text');
  const said = document.getElementById('copied');
  out.select();
  try {
    await navigator.clipboard.writeText(out.value);
    said.textContent = 'Copied.';
  } catch (error) {
    said.textContent = document.execCommand('copy') ? 'Copied.' : 'Select the text and copy it by hand.';
  }
});
load();
show();
setInterval(showClocks, 5000);
document.addEventListener('visibilitychange', showClocks);
`;

/** The look of a phone pack; a constant for the same reason. */
export const PHONE_STYLE = `:root { color-scheme: light; }
body { margin: 0 auto; max-width: 44rem; padding: 0 0.75rem 4rem; font: 1.05rem/1.4 sans-serif; color: #111; background: #fff; }
header { position: sticky; top: 0; background: #fff; border-bottom: 3px solid #111; padding: 0.2rem 0; }
h1 { font-size: 1rem; margin: 0; overflow: hidden; text-overflow: ellipsis; }
#top { display: flex; gap: 0.5rem; justify-content: space-between; white-space: nowrap; line-height: 1.3; }
h2 { font-size: 1.1rem; display: inline; }
h3 { font-size: 1.05rem; margin: 0; }
p { margin: 0.2rem 0; }
#clocks { list-style: none; margin: 0; padding: 0; max-height: calc(25vh - 2.2rem); overflow: auto; font-size: 0.85rem; line-height: 1.3; font-variant-numeric: tabular-nums; }
#clocks li:first-child { font-size: 1.05rem; }
#clocks li:first-child strong { font-size: 1.4rem; }
#clocks .due { border-left: 0.5rem solid #111; padding-left: 0.4rem; }
summary { padding: 0.6rem 0; cursor: pointer; border-bottom: 1px solid #111; }
article { border: 1px solid #555; border-radius: 0.4rem; margin: 0.6rem 0; padding: 0.5rem; }
article.over { border-style: dashed; color: #444; }
.not { border: 3px solid #111; padding: 0.3rem; font-weight: 700; }
.small { font-size: 0.9rem; color: #333; }
button { display: block; width: 100%; min-height: 3.2rem; margin: 0.35rem 0; padding: 0.3rem 0.6rem; font: inherit; text-align: left; color: #111; background: #fff; border: 2px solid #111; border-radius: 0.4rem; }
button[aria-pressed="true"] { background: #e4e4e4; }
button:disabled { border: 1px solid #999; color: #555; }
button b { float: right; }
button .again { display: none; font-weight: 700; }
button.armed { border-style: dashed; border-width: 4px; }
button.armed .again { display: block; }
textarea { width: 100%; height: 9rem; box-sizing: border-box; font: 0.85rem/1.3 monospace; }
`;
