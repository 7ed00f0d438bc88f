"""What was really said in a recording, and when.

From sound to words (`hear`): speech is found, cut at pauses into windows of at most 28 s, and each window is written
down without numerals and without the script as a prompt. Words are placed in time by the model and moved to where the
sound begins and ends them (`onset`); counts said number by number and sentences that were left out are heard once more
(`counts`, `hear`). From words to a take (`align`, `judge`, `take`): they are laid against the script, numbers in doubt
are weighed on the sound, and what is otherwise than written becomes a verdict or a place to record again.

Memory: the sound as 16-bit samples (115 MB an hour), the model (75 MB for tiny.en) and one window at a time. What was
heard is kept in the store by the content of sound, model and settings, so `studio.hear.hear` may run in a process of
its own, with the parent free of the model: its arguments and its result are plain values that can be sent, and a
second call anywhere reads them from the store without loading the model.
"""
