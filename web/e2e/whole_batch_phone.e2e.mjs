import { wholeBatch } from './whole_batch.mjs';

wholeBatch('phone');
