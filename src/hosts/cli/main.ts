import process from 'node:process';

process.stderr.write('usage: scribeline check PATH… [--json]\n');
process.exitCode = 2;
