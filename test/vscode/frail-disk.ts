import * as vscode from 'vscode';

type Failing = 'never' | 'full' | 'no-rename';

/** Files in memory. A full disk keeps the first half of what is written, as real ones do. */
export class FrailDisk implements vscode.FileSystemProvider {
  readonly files = new Map<string, { data: Uint8Array; mtime: number; locked: boolean }>();
  failing: Failing = 'never';
  private readonly changed = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  readonly onDidChangeFile = this.changed.event;

  watch(): vscode.Disposable {
    return new vscode.Disposable(() => undefined);
  }

  stat(uri: vscode.Uri): vscode.FileStat {
    if (uri.path === '/') return { type: vscode.FileType.Directory, ctime: 0, mtime: 0, size: 0 };
    const { data, mtime, locked } = this.at(uri);
    const stat = { type: vscode.FileType.File, ctime: 0, mtime, size: data.length };
    return locked ? { ...stat, permissions: vscode.FilePermission.Readonly } : stat;
  }

  readDirectory(): [string, vscode.FileType][] {
    return [...this.files.keys()].map((path) => [path.slice(1), vscode.FileType.File]);
  }

  createDirectory(): void {
    // there is but one
  }

  readFile(uri: vscode.Uri): Uint8Array {
    return this.at(uri).data;
  }

  writeFile(uri: vscode.Uri, data: Uint8Array): void {
    const full = this.failing === 'full';
    const mtime = Math.max(Date.now(), (this.files.get(uri.path)?.mtime ?? 0) + 1);
    this.files.set(uri.path, { data: full ? data.slice(0, data.length / 2) : data, mtime, locked: false });
    this.tell(vscode.FileChangeType.Changed, uri);
    if (full) throw new Error('there is no room left on the disk');
  }

  delete(uri: vscode.Uri): void {
    this.at(uri);
    this.files.delete(uri.path);
    this.tell(vscode.FileChangeType.Deleted, uri);
  }

  rename(from: vscode.Uri, to: vscode.Uri): void {
    if (this.failing === 'no-rename') throw new Error('the line is down');
    this.files.set(to.path, this.at(from));
    this.files.delete(from.path);
    this.tell(vscode.FileChangeType.Changed, to);
  }

  text(uri: vscode.Uri): string | null {
    const found = this.files.get(uri.path);
    return found ? new TextDecoder().decode(found.data) : null;
  }

  private at(uri: vscode.Uri): { data: Uint8Array; mtime: number; locked: boolean } {
    const found = this.files.get(uri.path);
    if (!found) throw vscode.FileSystemError.FileNotFound(uri);
    return found;
  }

  private tell(type: vscode.FileChangeType, uri: vscode.Uri): void {
    this.changed.fire([{ type, uri }]);
  }
}
