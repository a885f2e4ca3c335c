import eslint from '@eslint/js';
import prettier from 'eslint-config-prettier';
import { dirname, relative, resolve, sep } from 'node:path';
import tseslint from 'typescript-eslint';

// Data flows one way: each room names the rooms it may import, and what from outside the project it may use.
// A library marked `type:` gives its types only. Nothing else in src may be imported.
const CORE = ['quantity', 'notation', 'trade', 'engine'];
export const ROOMS = {
  quantity: { rooms: [], libraries: [] },
  notation: { rooms: ['quantity'], libraries: ['markdown-it', 'yaml'] },
  trade: { rooms: ['quantity'], libraries: ['mathjs'] },
  engine: { rooms: ['notation', 'trade', 'quantity'], libraries: [] },
  language: { rooms: CORE, libraries: [] },
  archive: { rooms: CORE, libraries: ['minisearch'] },
  sheet: { rooms: CORE, libraries: ['markdown-it'] },
  'hosts/preview': { rooms: ['sheet', ...CORE], libraries: ['type:markdown-it'] },
  'hosts/cli': { rooms: ['archive', 'language', 'sheet', 'hosts/preview', ...CORE], libraries: ['node:'] },
  'hosts/editor': {
    rooms: ['archive', 'language', 'sheet', 'hosts/preview', ...CORE],
    libraries: ['vscode'],
  },
};

const SRC = resolve(import.meta.dirname, 'src');
const roomOf = (file) => {
  const path = relative(SRC, file).split(sep).join('/');
  return Object.keys(ROOMS).find((room) => path === room || path.startsWith(`${room}/`));
};

const oneWay = {
  meta: {
    type: 'problem',
    schema: [],
    messages: { no: '{{from}} may not import {{what}}: see ROOMS in eslint.config.mjs' },
  },
  create(context) {
    const from = roomOf(context.filename);
    const allowed = ROOMS[from] ?? { rooms: [], libraries: [] };
    const check = (node, source, typeOnly) => {
      const id = source?.value;
      const forbid = (what) =>
        context.report({ node, messageId: 'no', data: { from: from ?? 'a file outside the rooms', what } });
      if (typeof id !== 'string') return forbid('what is not a plain string');
      if (id.startsWith('.')) {
        const to = roomOf(resolve(dirname(context.filename), id));
        if (to === undefined || (to !== from && !allowed.rooms.includes(to))) forbid(to ?? id);
        return;
      }
      const is = (name) =>
        name.endsWith(':') ? id.startsWith(name) : id === name || id.startsWith(`${name}/`);
      const fits = (library) =>
        library.startsWith('type:') ? typeOnly && is(library.slice(5)) : is(library);
      if (!allowed.libraries.some(fits)) forbid(id);
    };
    return {
      ImportDeclaration: (node) => check(node, node.source, node.importKind === 'type'),
      ExportAllDeclaration: (node) => check(node, node.source, node.exportKind === 'type'),
      ExportNamedDeclaration: (node) => node.source && check(node, node.source, node.exportKind === 'type'),
      ImportExpression: (node) => check(node, node.source, false),
      TSImportType: (node) => check(node, node.source ?? node.argument?.literal, true),
      TSExternalModuleReference: (node) => check(node, node.expression, false),
      'CallExpression[callee.name="require"]': (node) => check(node, node.arguments[0], false),
    };
  },
};

export default tseslint.config(
  { ignores: ['dist', 'out', 'test/hosts/*/node_modules', '.vscode-data', '.vscode-test'] },
  eslint.configs.recommended,
  tseslint.configs.strict,
  {
    rules: {
      eqeqeq: 'error',
      '@typescript-eslint/consistent-type-imports': ['error', { disallowTypeAnnotations: false }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/no-empty-function': 'off',
    },
  },
  {
    files: ['src/**'],
    plugins: { rooms: { rules: { 'one-way': oneWay } } },
    rules: { 'rooms/one-way': 'error', 'max-lines': ['error', 400] },
  },
  {
    files: ['**/*.mjs'],
    languageOptions: {
      globals: {
        console: 'readonly',
        process: 'readonly',
        setTimeout: 'readonly',
        clearTimeout: 'readonly',
        setInterval: 'readonly',
        clearInterval: 'readonly',
        performance: 'readonly',
        URL: 'readonly',
      },
    },
  },
  {
    files: ['media/*.js'],
    languageOptions: {
      sourceType: 'script',
      globals: {
        addEventListener: 'readonly',
        Element: 'readonly',
        MouseEvent: 'readonly',
        window: 'readonly',
      },
    },
  },
  prettier,
);
