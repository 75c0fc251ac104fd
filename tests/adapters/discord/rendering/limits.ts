import { expect } from 'vitest';
import { channelBody, editBody, type PlatformMessage } from '../../../../src/adapters/discord/rendering/message.ts';
import { fault } from './spec.ts';

interface Node {
  type: number;
  id?: number;
  content?: string;
  label?: string;
  style?: number;
  custom_id?: string;
  accent_color?: number;
  components?: Node[];
  items?: { media: { url: string }; description?: string }[];
  file?: { url: string };
}

const nodesOf = (components: readonly Node[]): Node[] => components.flatMap((node) => [node, ...nodesOf(node.components ?? [])]);
export const all = (message: PlatformMessage) => nodesOf(message.components as unknown as Node[]);
export const texts = (message: PlatformMessage) =>
  all(message).flatMap(({ content }) => (content === undefined ? [] : [content]));
export const buttons = (message: PlatformMessage) => all(message).filter(({ type }) => type === 2);
export const words = (message: PlatformMessage) => texts(message).join('\n');
export const fileText = (message: PlatformMessage) => message.files.find(({ name }) => name === 'card.txt')?.data.toString();

/** The platform's limits, told apart from the code that keeps them. */
export function expectWithinLimits(message: PlatformMessage) {
  const nodes = all(message);
  expect(nodes.length).toBeLessThanOrEqual(40);
  expect(texts(message).join('').length).toBeLessThanOrEqual(4000);
  for (const content of texts(message)) expect(content.trim()).not.toBe('');
  const ids = nodes.flatMap(({ custom_id }) => custom_id ?? []);
  expect(new Set(ids).size).toBe(ids.length);
  for (const { label } of buttons(message)) {
    expect(label?.trim()).toBeTruthy();
    expect(label?.length).toBeLessThanOrEqual(80);
  }
  const numbers = nodes.flatMap(({ id }) => id ?? []);
  expect(new Set(numbers).size).toBe(numbers.length);
  const halves: string[] = [];
  JSON.stringify([message.components, message.files.map(({ name, description }) => [name, description])], (_, value) => {
    if (typeof value === 'string' && /\p{Cs}/u.test(value)) halves.push(value);
    return value;
  });
  // The platform refuses half a character, wherever it stands.
  expect(halves).toEqual([]);
  const urls = nodes.flatMap(({ items, file }) => [...(items ?? []).map(({ media }) => media.url), ...(file ? [file.url] : [])]);
  expect(urls.sort()).toEqual(message.files.map(({ name }) => `attachment://${name}`).sort());
  expect(new Set(message.files.map(({ name }) => name.toLowerCase())).size).toBe(message.files.length);
  for (const { name, data } of message.files) {
    expect(name).toMatch(/^[A-Za-z0-9_-][A-Za-z0-9._-]*$/);
    expect(data.length).toBeLessThanOrEqual(10 * 1024 * 1024);
  }
  expect(message.files.length).toBeLessThanOrEqual(10);
  expect(message.files.reduce((sum, { data }) => sum + data.length, 0)).toBeLessThan(25 * 1024 * 1024);
  expect(fault('post', channelBody(message, 'nonce'))).toBeUndefined();
  expect(fault('edit', editBody(message))).toBeUndefined();
}
