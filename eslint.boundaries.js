/**
 * Which folder may import which, and what the planner's steps may not touch.
 * A test lints one failing snippet for every rule here.
 *
 * eslint-plugin-boundaries is not used: here one list gives every folder of app/ its place and
 * refuses a folder without one, and judge/ may import the types of a step whose code it may not run;
 * there each folder would be an element with a rule of its own for every pair, which says the same
 * at greater length.
 */
import { builtinModules } from 'node:module';
import { dirname, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import globals from 'globals';

const ROOT = dirname(fileURLToPath(import.meta.url));

/**
 * Every folder of app/, in the order in which data flows: a folder may import those before it, never
 * those after it. One that is not listed is refused, so that a new folder is given its place here.
 * plan/ plans one route; answer/ compares all of them and makes the published result.
 */
export const FOLDERS_IN_ORDER = [
  'units',
  'time',
  'document',
  'messages',
  'part',
  'route',
  'cure',
  'schedule',
  'plan',
  'judge',
  'shop',
  'answer',
  'timeline',
  'contract',
];

/** judge/ is handed measured parts, cures and plans: at run time it imports nothing from these. */
const HANDED_TO_JUDGE = ['part', 'route', 'cure', 'schedule', 'plan'];

const PURE_PACKAGES = ['zod', '@date-fns/tz', 'ml-levenberg-marquardt', 'ml-matrix'];
const RENDERER_PACKAGES = [...PURE_PACKAGES, 'svelte', 'chart.js'];

const isNodeModule = (name) => name.startsWith('node:') || builtinModules.includes(name);

const packageOf = (name) =>
  name
    .split('/')
    .slice(0, name.startsWith('@') ? 2 : 1)
    .join('/');

/** Why this import is wrong, or null. `typeOnly` imports leave nothing behind at run time. */
function fault(fromPath, name, typeOnly) {
  const [folder, step] = fromPath.split('/');
  if (!name.startsWith('.')) {
    if (folder === 'app' && !PURE_PACKAGES.includes(packageOf(name))) {
      return `app/ imports ${PURE_PACKAGES.join(', ')} and nothing else from outside`;
    }
    if (
      folder === 'renderer' &&
      (isNodeModule(name) || !RENDERER_PACKAGES.includes(packageOf(name)))
    ) {
      return 'renderer/ runs in a page: no Node, no Electron, no further packages';
    }
    return null;
  }
  const target = relative(ROOT, resolve(ROOT, dirname(fromPath), name))
    .split(sep)
    .join('/');
  const [toFolder, toStep] = target.split('/');
  if (folder === 'app') {
    if (toFolder !== 'app') return 'app/ imports from app/ only';
    const [at, to] = [FOLDERS_IN_ORDER.indexOf(step), FOLDERS_IN_ORDER.indexOf(toStep)];
    if (at < 0) return `app/${step} has no place in the order of eslint.boundaries.js`;
    if (to < 0) return `app/${toStep} has no place in the order of eslint.boundaries.js`;
    if (to > at) return `${step}/ comes before ${toStep}/ in the pipeline`;
    if (step === 'judge' && !typeOnly && HANDED_TO_JUDGE.includes(toStep)) {
      return 'judge/ is handed what it judges: only types of earlier steps';
    }
  }
  if (folder === 'renderer' && toFolder !== 'renderer' && toFolder !== 'app') {
    return 'renderer/ imports from renderer/ and app/ only';
  }
  if (folder === 'main' && toFolder !== 'main' && toFolder !== 'app') {
    return 'main/ imports from main/ and app/ only';
  }
  return null;
}

const importRule = {
  meta: { type: 'problem', schema: [], messages: { no: '{{why}} (found {{name}})' } },
  create(context) {
    const fromPath = relative(ROOT, context.filename).split(sep).join('/');
    const check = (node, source, typeOnly) => {
      if (typeof source?.value !== 'string') return;
      const why = fault(fromPath, source.value, typeOnly);
      if (why) context.report({ node, messageId: 'no', data: { why, name: source.value } });
    };
    return {
      ImportDeclaration: (node) => check(node, node.source, node.importKind === 'type'),
      ExportNamedDeclaration: (node) => check(node, node.source, node.exportKind === 'type'),
      ExportAllDeclaration: (node) => check(node, node.source, node.exportKind === 'type'),
      ImportExpression: (node) => check(node, node.source, false),
    };
  },
};

/** The one folder that makes and reads ids. */
const IDS = 'app/document/ids/';

const TEXT_METHODS = new Set([
  'startsWith',
  'endsWith',
  'includes',
  'split',
  'indexOf',
  'lastIndexOf',
  'slice',
  'substring',
  'match',
  'replace',
]);
const isIdName = (name) => /^(id|stage|cure|lever)$|Id$/.test(name);
const ID_HEADS =
  'layup|cure|prepare|watched-vacuum|gel-look|bag-off|closeout|outside|wait|sign-off|fair|prime|' +
  'hardener|tent|route|slot|stiffen|abrade|scuff|person';
const BEGINS_AN_ID = new RegExp(`^(${ID_HEADS}):`);

/** `one.id`, `leverId`, `record.stage`, `placed.mode`: the name of what a method is called on. */
function nameOf(node) {
  if (node.type === 'Identifier') return node.name;
  if (node.type === 'ChainExpression' || node.type === 'TSNonNullExpression')
    return nameOf(node.expression);
  return node.type === 'MemberExpression' && !node.computed ? node.property.name : '';
}

const idRule = {
  meta: {
    type: 'problem',
    schema: [],
    messages: {
      read: `an id is taken apart only in ${IDS} (found {{name}}.{{method}})`,
      made: `an id is made only in ${IDS} (found {{text}})`,
    },
  },
  create(context) {
    if (relative(ROOT, context.filename).split(sep).join('/').startsWith(IDS)) return {};
    const made = (node, text) => {
      // A head that has more than an id behind it is a sentence.
      if (BEGINS_AN_ID.test(text) && !/\s/.test(text))
        context.report({ node, messageId: 'made', data: { text } });
    };
    return {
      CallExpression({ callee }) {
        if (callee.type !== 'MemberExpression' || callee.computed) return;
        const [name, method] = [nameOf(callee.object), callee.property.name];
        const isMode = name === 'mode' && method !== 'slice';
        if (!TEXT_METHODS.has(method) || !(isIdName(name) || isMode)) return;
        context.report({ node: callee, messageId: 'read', data: { name, method } });
      },
      Literal: (node) => typeof node.value === 'string' && made(node, node.value),
      TemplateLiteral: (node) => made(node, node.quasis[0].value.cooked),
    };
  },
};

export const boundaries = { rules: { imports: importRule, ids: idRule } };

// ---------------------------------------------------------------------------------------------
// Purity of app/

const languageGlobals = new Set(Object.keys(globals.es2025));
const PURE_GLOBALS = new Set(['structuredClone', 'TextEncoder', 'TextDecoder']);

/** Everything that a page, a worker or Node adds to the language: console, document, process... */
const hostGlobals = [
  ...new Set(
    [globals.browser, globals.worker, globals.node].flatMap((table) => Object.keys(table)),
  ),
]
  .filter((name) => !languageGlobals.has(name) && !PURE_GLOBALS.has(name))
  .sort();

export const purityRules = {
  'no-restricted-globals': [
    'error',
    ...hostGlobals.map((name) => ({ name, message: 'app/ is pure: it knows no host.' })),
  ],
  'no-restricted-properties': [
    'error',
    { object: 'Date', property: 'now', message: 'app/ has no clock: pass `now` in.' },
    { object: 'Math', property: 'random', message: 'Use a seeded generator.' },
    { property: 'localeCompare', message: "Compare by code unit: the machine's locale differs." },
  ],
  'no-restricted-syntax': [
    'error',
    {
      selector: "NewExpression[callee.name='Date'][arguments.length!=1]",
      message: "app/ has no clock and no zone of the machine's: pass an instant in.",
    },
    { selector: "CallExpression[callee.name='Date']", message: 'app/ has no clock.' },
    {
      selector: 'CallExpression[callee.property.name=/^toLocale/][arguments.length=0]',
      message: "Name the locale: the machine's own differs.",
    },
    {
      selector: 'NewExpression[callee.object.name="Intl"][arguments.length=0]',
      message: "Name the locale: the machine's own differs.",
    },
  ],
};
