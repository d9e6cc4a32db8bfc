import type { PageProps } from './app';
export function Water(_: PageProps) { return <p>stub</p>; }
