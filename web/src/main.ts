import { mount } from 'svelte';
import App from './App.svelte';
import { dressPage } from './data/settings.svelte';
import './face/face.css';
import { leadToFaults } from './parts/at_fault';
import { guardForms } from './shell/press_once';
import { router } from './shell/router.svelte';

dressPage();
guardForms();
leadToFaults();
router.start();
const page = document.getElementById('page');
if (page) mount(App, { target: page });
