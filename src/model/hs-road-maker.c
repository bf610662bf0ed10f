// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Making the map of roads in the background.
 *
 *   make ─▶ thread: room? stamp? ─▶ splitter (its lines are the steps) ─▶ ledger's worker: take it, drive, write down
 *
 * Use it from a window. It refuses an extract for which the disk has no room, and says so before it begins.
 */

#include "hs-road-maker.h"

#include <glib/gstdio.h>
#include <errno.h>
#include <string.h>

/* How many lines a whole run of the splitter writes. */
#define USUAL_STEPS 48
/* What a map and the splitter's notes take, × the extract. */
#define ROOM_TIMES 3
/* A disk with less is full. */
#define LEAST_ROOM (1 << 20)

struct _HsRoadMaker
{
  GObject parent_instance;

  HsLedger *ledger; /* weak: it owns us */
  GCancellable *cancel;
  GSubprocess *splitter;
  HsRoadMakerState state;
  char *folder;
  char *stamp;
  char *step;
  char *said; /* the last line of complaint */
  char *trouble;
  guint steps;
  guint driven;
};

G_DEFINE_FINAL_TYPE (HsRoadMaker, hs_road_maker, G_TYPE_OBJECT)

static guint changed_signal;
static const HsRoadWorks *works;

void
hs_road_works_install (const HsRoadWorks *installed)
{
  works = installed;
}

const HsRoadWorks *
hs_road_works_get (void)
{
  return works;
}

static void
set_state (HsRoadMaker *self, HsRoadMakerState state)
{
  self->state = state;
  g_signal_emit (self, changed_signal, 0);
}

/* Nothing of what was begun stays. */
static void
give_up (HsRoadMaker *self, const char *trouble)
{
  works->sweep (self->folder);
  g_clear_object (&self->splitter);
  g_free (self->trouble);
  self->trouble = g_cancellable_is_cancelled (self->cancel) ? NULL : g_strdup (trouble);
  set_state (self, g_cancellable_is_cancelled (self->cancel) ? HS_ROAD_MAKER_STOPPED : HS_ROAD_MAKER_FAILED);
}

/* Driving, in the ledger's worker. */

static gboolean
drive (HsBook *book, const char *folder, HsInstant now, guint *ret_driven, GError **error)
{
  gpointer map = works->open (folder, error);
  HsRoadSource source;
  gboolean good;

  if (map == NULL)
    return FALSE;
  source = works->source (map);
  good = hs_road_fill (book, &source, now, ret_driven, error);
  works->close (map);
  return good;
}

static gpointer
take_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *folder, *stamp;
  guint driven = 0;

  g_variant_get (args, "(&s&s)", &folder, &stamp);
  if (!works->take_map (folder, stamp, error))
    return NULL;
  works->sweep (folder);
  if (!drive (book, folder, now, &driven, error))
    return NULL;
  return g_memdup2 (&driven, sizeof driven);
}

static gpointer
drive_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  guint driven = 0;

  drive (book, g_variant_get_string (args, NULL), now, &driven, error);
  return NULL;
}

static void
taken_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRoadMaker) self = HS_ROAD_MAKER (data);
  g_autoptr (GError) error = NULL;
  g_autofree guint *driven = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &driven, &error))
    {
      give_up (self, error->message);
      return;
    }
  self->driven = driven != NULL ? *driven : 0;
  set_state (self, HS_ROAD_MAKER_DONE);
}

/* Splitting. */

/* A splitter that runs out of room may stumble later, over what it could not write. */
static gboolean
is_full (HsRoadMaker *self)
{
  g_autoptr (GFile) folder = g_file_new_for_path (self->folder);
  g_autoptr (GFileInfo) disk = NULL;

  if (self->said != NULL && strstr (self->said, g_strerror (ENOSPC)) != NULL)
    return TRUE;
  disk = g_file_query_filesystem_info (folder, G_FILE_ATTRIBUTE_FILESYSTEM_FREE, NULL, NULL);
  return disk != NULL && g_file_info_has_attribute (disk, G_FILE_ATTRIBUTE_FILESYSTEM_FREE)
         && g_file_info_get_attribute_uint64 (disk, G_FILE_ATTRIBUTE_FILESYSTEM_FREE) < LEAST_ROOM;
}

/* The splitter's last complaint. Where it found nothing it only says that it cannot read what it did not write. */
static const char *
reason_of (HsRoadMaker *self)
{
  if (self->said == NULL)
    return "the splitter gave up";
  return g_str_has_prefix (self->said, "Cannot mmap file") ? "there seems to be no road in the file" : self->said;
}

static void
ended_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRoadMaker) self = HS_ROAD_MAKER (data);
  g_autofree char *text = NULL;

  g_subprocess_wait_finish (G_SUBPROCESS (source), result, NULL);
  if (g_cancellable_is_cancelled (self->cancel) || self->ledger == NULL)
    give_up (self, NULL);
  else if (g_subprocess_get_successful (G_SUBPROCESS (source)))
    {
      g_clear_object (&self->splitter);
      set_state (self, HS_ROAD_MAKER_DRIVING);
      hs_ledger_write_async (self->ledger, take_func, g_variant_new ("(ss)", self->folder, self->stamp), g_free, FALSE,
                             taken_cb, g_object_ref (self));
    }
  else if (is_full (self))
    give_up (self, "The disk is full: make room, then try again. Nothing was changed.");
  else
    {
      text = g_strdup_printf ("The road map could not be made: %s. Is the file a whole OpenStreetMap extract "
                              "(.osm.pbf, .osm, .osm.gz, .osm.bz2, .o5m)?",
                              reason_of (self));
      give_up (self, text);
    }
}

static void read_line (HsRoadMaker *self, GDataInputStream *stream, gboolean complaints);

static void
keep_line (HsRoadMaker *self, char *line, gboolean complaints)
{
  g_strstrip (line);
  /* Headings are underlined; what is under them counts. */
  if (*line == '\0' || *line == '=')
    {
      g_free (line);
      return;
    }
  if (complaints)
    {
      if (g_str_has_suffix (line, "."))
        line[strlen (line) - 1] = '\0';
      g_free (self->said);
      self->said = line;
      return;
    }
  g_free (self->step);
  self->step = line;
  self->steps += 1;
  g_signal_emit (self, changed_signal, 0);
}

static void
said_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRoadMaker) self = HS_ROAD_MAKER (data);
  gboolean complaints = g_object_get_data (source, "complaints") != NULL;
  /* The name of the extract stands in some lines, and need not be UTF-8. */
  g_autofree char *line = g_data_input_stream_read_line_finish (G_DATA_INPUT_STREAM (source), result, NULL, NULL);

  if (line != NULL)
    {
      keep_line (self, g_utf8_make_valid (line, -1), complaints);
      read_line (self, G_DATA_INPUT_STREAM (source), complaints);
    }
  /* All of the complaints are heard before the end is. */
  else if (complaints)
    g_subprocess_wait_async (self->splitter, NULL, ended_cb, g_object_ref (self));
}

static void
read_line (HsRoadMaker *self, GDataInputStream *stream, gboolean complaints)
{
  g_data_input_stream_read_line_async (stream, G_PRIORITY_DEFAULT, NULL, said_cb, g_object_ref (self));
}

static void
listen (HsRoadMaker *self, GInputStream *pipe, gboolean complaints)
{
  g_autoptr (GDataInputStream) stream = g_data_input_stream_new (pipe);

  if (complaints)
    g_object_set_data (G_OBJECT (stream), "complaints", stream);
  read_line (self, stream, complaints);
}

static void
split (HsRoadMaker *self, char **words)
{
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_PIPE);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  g_subprocess_launcher_set_cwd (launcher, self->folder);
  self->splitter = g_subprocess_launcher_spawnv (launcher, (const char *const *) words, &error);
  if (self->splitter == NULL)
    {
      text = g_error_matches (error, G_SPAWN_ERROR, G_SPAWN_ERROR_NOENT)
                 ? g_strdup_printf ("%s, which makes road maps, is not on this machine: install the package routino.",
                                    words[0])
                 : g_strdup (error->message);
      give_up (self, text);
      return;
    }
  set_state (self, HS_ROAD_MAKER_SPLITTING);
  listen (self, g_subprocess_get_stdout_pipe (self->splitter), FALSE);
  listen (self, g_subprocess_get_stderr_pipe (self->splitter), TRUE);
}

/* Reading. */

typedef struct
{
  char *extract;
  char *folder;
  char **words;
  char *stamp;
} Order;

static void
free_order (gpointer data)
{
  Order *order = data;

  g_free (order->extract);
  g_free (order->folder);
  g_strfreev (order->words);
  g_free (order->stamp);
  g_free (order);
}

static gboolean
has_room (const char *extract, const char *folder, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (extract);
  g_autoptr (GFile) there = g_file_new_for_path (folder);
  g_autoptr (GFileInfo) info
      = g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_SIZE, G_FILE_QUERY_INFO_NONE, NULL, error);
  g_autoptr (GFileInfo) disk = NULL;
  g_autofree char *wanted = NULL;
  g_autofree char *free_room = NULL;
  guint64 room, need;

  if (info == NULL)
    return FALSE;
  disk = g_file_query_filesystem_info (there, G_FILE_ATTRIBUTE_FILESYSTEM_FREE, NULL, NULL);
  if (disk == NULL || !g_file_info_has_attribute (disk, G_FILE_ATTRIBUTE_FILESYSTEM_FREE))
    return TRUE;
  room = g_file_info_get_attribute_uint64 (disk, G_FILE_ATTRIBUTE_FILESYSTEM_FREE);
  need = (guint64) MAX (0, g_file_info_get_size (info)) * ROOM_TIMES;
  if (need <= room)
    return TRUE;
  wanted = g_format_size (need);
  free_room = g_format_size (room);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE,
               "There is no room for this map: it wants about %s, and %s is free. Choose a smaller extract "
               "or make room.",
               wanted, free_room);
  return FALSE;
}

static void
read_func (GTask *task, gpointer source, gpointer data, GCancellable *cancel)
{
  Order *order = data;
  g_autoptr (GError) error = NULL;

  if (g_mkdir_with_parents (order->folder, 0700) != 0)
    {
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_FAILED, "%s cannot be made.", order->folder);
      return;
    }
  if (has_room (order->extract, order->folder, &error))
    order->words = works->dup_splitter (order->extract, order->folder, &order->stamp, &error);
  if (order->words == NULL)
    g_task_return_error (task, g_steal_pointer (&error));
  else
    g_task_return_boolean (task, TRUE);
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  HsRoadMaker *self = HS_ROAD_MAKER (source);
  Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  if (!g_task_propagate_boolean (G_TASK (result), &error))
    {
      give_up (self, error->message);
      return;
    }
  g_free (self->stamp);
  self->stamp = g_strdup (order->stamp);
  split (self, order->words);
}

static void
hs_road_maker_dispose (GObject *object)
{
  HsRoadMaker *self = HS_ROAD_MAKER (object);

  g_clear_weak_pointer (&self->ledger);
  g_clear_object (&self->cancel);
  g_clear_object (&self->splitter);
  g_clear_pointer (&self->folder, g_free);
  g_clear_pointer (&self->stamp, g_free);
  g_clear_pointer (&self->step, g_free);
  g_clear_pointer (&self->said, g_free);
  g_clear_pointer (&self->trouble, g_free);
  G_OBJECT_CLASS (hs_road_maker_parent_class)->dispose (object);
}

static void
hs_road_maker_class_init (HsRoadMakerClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hs_road_maker_dispose;
  changed_signal = g_signal_new ("changed", HS_TYPE_ROAD_MAKER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hs_road_maker_init (HsRoadMaker *self)
{
  self->cancel = g_cancellable_new ();
}

/* The ledger goes: so does what it began. */
static void
release (gpointer data)
{
  hs_road_maker_stop (HS_ROAD_MAKER (data));
  g_object_unref (data);
}

HsRoadMaker *
hs_road_maker_of (HsLedger *ledger)
{
  HsRoadMaker *self = g_object_get_data (G_OBJECT (ledger), "road-maker");

  if (self != NULL)
    return self;
  self = g_object_new (HS_TYPE_ROAD_MAKER, NULL);
  g_set_weak_pointer (&self->ledger, ledger);
  g_object_set_data_full (G_OBJECT (ledger), "road-maker", self, release);
  return self;
}

void
hs_road_maker_make (HsRoadMaker *self, const char *extract)
{
  g_autoptr (GTask) task = NULL;
  Order *order;

  g_return_if_fail (HS_IS_ROAD_MAKER (self));

  if (works == NULL || hs_road_maker_is_busy (self))
    return;
  g_clear_object (&self->cancel);
  self->cancel = g_cancellable_new ();
  g_clear_pointer (&self->trouble, g_free);
  g_clear_pointer (&self->step, g_free);
  g_clear_pointer (&self->said, g_free);
  self->steps = 0;
  g_free (self->folder);
  self->folder = works->dup_folder ();
  order = g_new0 (Order, 1);
  order->extract = g_strdup (extract);
  order->folder = g_strdup (self->folder);
  task = g_task_new (self, self->cancel, read_cb, NULL);
  g_task_set_task_data (task, order, free_order);
  set_state (self, HS_ROAD_MAKER_READING);
  g_task_run_in_thread (task, read_func);
}

void
hs_road_maker_stop (HsRoadMaker *self)
{
  g_return_if_fail (HS_IS_ROAD_MAKER (self));

  if (self->state != HS_ROAD_MAKER_READING && self->state != HS_ROAD_MAKER_SPLITTING)
    return;
  g_cancellable_cancel (self->cancel);
  if (self->splitter != NULL)
    g_subprocess_force_exit (self->splitter);
}

void
hs_road_maker_drive (HsRoadMaker *self)
{
  g_autofree char *folder = NULL;

  g_return_if_fail (HS_IS_ROAD_MAKER (self));

  if (works == NULL || self->ledger == NULL || hs_road_maker_is_busy (self))
    return;
  folder = works->dup_folder ();
  if (works->has_map (folder))
    hs_ledger_write_async (self->ledger, drive_func, g_variant_new_string (folder), NULL, FALSE, NULL, NULL);
}

HsRoadMakerState
hs_road_maker_get_state (HsRoadMaker *self)
{
  return self->state;
}

gboolean
hs_road_maker_is_busy (HsRoadMaker *self)
{
  return self->state == HS_ROAD_MAKER_READING || self->state == HS_ROAD_MAKER_SPLITTING
         || self->state == HS_ROAD_MAKER_DRIVING;
}

double
hs_road_maker_get_share (HsRoadMaker *self)
{
  return MIN (0.98, self->steps / (double) USUAL_STEPS);
}

const char *
hs_road_maker_get_step (HsRoadMaker *self)
{
  return self->step;
}

const char *
hs_road_maker_get_trouble (HsRoadMaker *self)
{
  return self->trouble;
}

guint
hs_road_maker_get_driven (HsRoadMaker *self)
{
  return self->driven;
}
